package lanemend.sample;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The files as bytes: repeatable, the same as those kept in the repository, readable. */
class SampleFolderTest {
  private static final List<String> FILES =
      List.of(
          "README.md",
          "agency.json",
          "attributes.csv",
          "county.json",
          "defects.csv",
          "findings.csv",
          "forecast.csv",
          "patches.csv",
          "posts.csv",
          "roads.geojson",
          "truth.json");

  private static List<String> names(Path folder) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.map(f -> f.getFileName().toString()).sorted().toList();
    }
  }

  @Test
  void theSameSeedGivesTheSameBytesAndAnotherSeedDoesNot(@TempDir Path folder) throws IOException {
    SampleSize size = new SampleSize(150, 50, 10, 8);
    SampleCounty.write(folder.resolve("a"), size, 5);
    SampleCounty.write(folder.resolve("b"), size, 5);
    SampleCounty.write(folder.resolve("c"), size, 6);
    assertEquals(FILES, names(folder.resolve("a")));
    for (String name : FILES) {
      byte[] first = Files.readAllBytes(folder.resolve("a").resolve(name));
      assertArrayEquals(first, Files.readAllBytes(folder.resolve("b").resolve(name)), name);
    }
    assertTrue(
        Files.mismatch(
                folder.resolve("a").resolve("roads.geojson"),
                folder.resolve("c").resolve("roads.geojson"))
            >= 0);
  }

  @Test
  void theFolderInTheRepositoryIsWhatTheGeneratorWrites(@TempDir Path folder) throws IOException {
    FolderWriter.write(Counties.STANDARD, folder);
    Path kept = Path.of("sample-network");
    assertEquals(FILES, names(kept));
    for (String name : FILES) {
      long at = Files.mismatch(folder.resolve(name), kept.resolve(name));
      assertEquals(-1, at, name + " differs; write it anew with SampleCounty.main");
    }
  }

  @Test
  void itSaysThatItIsInventedAndStaysSmall() throws IOException {
    Path kept = Path.of("sample-network");
    for (String name : List.of("README.md", "county.json", "agency.json", "truth.json")) {
      assertTrue(Files.readString(kept.resolve(name)).contains("nvented"), name);
    }
    long bytes = 0;
    for (String name : FILES) {
      bytes += Files.size(kept.resolve(name));
    }
    assertTrue(bytes < 8_000_000, bytes + " bytes");
  }

  @Test
  void anImpossibleSizeIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> new SampleSize(20, 1, 1, 1));
    assertThrows(IllegalArgumentException.class, () -> new SampleSize(600, -1, 1, 1));
  }
}
