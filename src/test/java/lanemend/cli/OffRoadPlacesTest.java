package lanemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import net.sf.geographiclib.Geodesic;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A yard where no road is gets no crew to its work; longitude and latitude are easily mistaken. */
class OffRoadPlacesTest {
  private static final Path AGENCY = Path.of("sample-network", "agency.json");

  @TempDir Path folder;

  @Test
  void aYardFarFromEveryRoadIsSaidByItsDistance() throws IOException {
    // Given a road due north through the plant, and the sample's yards 5 to 8 miles west of it
    double plantLon = -107.4100453;
    Path roads =
        Files.writeString(
            folder.resolve("roads.csv"),
            "route,class,wkt\nCR 1,collector,\"LINESTRING(%1$s 41.9, %1$s 42.3)\"\n"
                .formatted(plantLon));
    Shell shell = new Shell(folder.resolve("work"));
    assertEquals(ExitCode.DONE, shell.run("import", "roads", roads.toString()).code());
    assertEquals(ExitCode.DONE, shell.run("import", "agency", AGENCY.toString()).code());
    // when it is looked over
    Shell.Outcome said = shell.run("check");
    // then the yards are named with the distance GeographicLib gives (C. Karney, "Algorithms for
    // geodesics", J. Geodesy 87, 2013), to the hundredth of a mile; the plant is not
    assertEquals(ExitCode.TROUBLE_FOUND, said.code());
    double metres = Geodesic.WGS84.Inverse(42.0509926, -107.553039, 42.0509926, plantLon).s12;
    String miles = String.format(java.util.Locale.ROOT, "%.2f mi", metres / 1609.344);
    assertTrue(said.out().contains("yard Y1 lies " + miles + " from the nearest road"), said.out());
    assertFalse(said.out().contains("plant P1"), said.out());
  }
}
