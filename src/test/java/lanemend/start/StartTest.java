package lanemend.start;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.DataInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The program's first class, as {@code java -jar} runs it. */
class StartTest {
  @TempDir Path elsewhere;

  /** Class files of Java 8 have major version 52 (JVM specification, table 4.1-A). */
  @Test
  void anOldJavaCanReadIt() throws IOException {
    try (InputStream in = StartTest.class.getResourceAsStream("/lanemend/start/Start.class")) {
      assertNotNull(in, "the build makes it from src/start");
      DataInputStream data = new DataInputStream(in);
      assertEquals(0xCAFEBABE, data.readInt());
      assertEquals(52, data.readInt());
    }
  }

  /** There is no old Java here, so the machine is told to call itself one. */
  @Test
  void aJavaTooOldIsSaidInOneSentence() throws Exception {
    for (String old : List.of("1.8", "11")) {
      Ended ended = run(List.of("-Djava.specification.version=" + old), "--version");
      assertEquals(3, ended.code(), ended.said());
      assertTrue(
          ended
              .said()
              .startsWith(
                  "lanemend needs Java 17 or newer: found Java "
                      + old.replace("1.8", "8")
                      + " in "),
          ended.said());
      assertEquals(1, ended.said().strip().lines().count());
    }
  }

  @Test
  void fromAnotherFolderAndWithAnEmptyEnvironmentItTellsItsVersion() throws Exception {
    Ended ended = run(List.of(), "--version");
    assertEquals(0, ended.code(), ended.said());
    Pattern line =
        Pattern.compile(
            "lanemend \\d+\\.\\d+\\.\\d+ \\((commit [0-9a-f]{7,} of \\d{4}-\\d\\d-\\d\\d(, with changes)?"
                + "|built without its repository)\\)");
    assertTrue(line.matcher(ended.said().strip()).matches(), ended.said());
  }

  private record Ended(int code, String said) {}

  private Ended run(List<String> options, String... words) throws Exception {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(options);
    command.addAll(List.of("-cp", absolute(System.getProperty("java.class.path"))));
    command.add("lanemend.start.Start");
    command.addAll(List.of(words));
    ProcessBuilder start = new ProcessBuilder(command).directory(elsewhere.toFile());
    Map<String, String> environment = start.environment();
    environment.clear();
    Process p = start.redirectErrorStream(true).start();
    String said = new String(p.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    return new Ended(p.waitFor(), said);
  }

  private static String absolute(String classPath) {
    String separator = System.getProperty("path.separator");
    List<String> parts = new ArrayList<>();
    for (String part : classPath.split(Pattern.quote(separator))) {
      parts.add(Path.of(part).toAbsolutePath().toString());
    }
    return String.join(separator, parts);
  }
}
