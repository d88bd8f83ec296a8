package lanemend.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A milepost that may be several places is answered with all of them and how to write each. */
class LocateCommandTest {
  @TempDir Path folder;

  @Test
  void everyRoadwayAndEverySideOfAnEquationIsNamed() throws IOException {
    // Given a divided road whose northbound numbers repeat from 1.0 to 1.2
    Shell shell = new Shell(folder.resolve("work"));
    bring(
        shell,
        "roads",
        """
        route,direction,class,one_way,wkt
        US 9,NB,freeway,yes,"LINESTRING(-100 40, -100 40.1)"
        US 9,SB,freeway,yes,"LINESTRING(-100.0003 40.1, -100.0003 40)"
        """);
    bring(
        shell,
        "posts",
        """
        route,direction,milepost,ahead,distance_m
        US 9,NB,0,,0
        US 9,NB,1.2,1,2000
        US 9,NB,5,,8000
        US 9,SB,5,,0
        US 9,SB,0,,8000
        """);
    // when 1.1 is asked for by the road's name
    Shell.Outcome said = shell.run("locate", "--route", "US 9", "--milepost", "1.1");
    // then it is asked about: two places northbound, one southbound
    assertEquals(ExitCode.TROUBLE_FOUND, said.code(), said.err());
    assertTrue(said.out().contains("write --route 'US 9 NB' and '1.100 back' for"), said.out());
    assertTrue(said.out().contains("write --route 'US 9 NB' and '1.100 ahead' for"), said.out());
    assertTrue(said.out().contains("write --route 'US 9 SB' for"), said.out());
    // and one of these words gives one place
    Shell.Outcome one = shell.run("locate", "--route", "us 9 sb", "--milepost", "1.1");
    assertEquals(ExitCode.DONE, one.code(), one.err());
    assertTrue(one.out().startsWith("US 9 SB milepost 1.100,"), one.out());
    Shell.Outcome none = shell.run("locate", "--route", "US 9", "--milepost", "7");
    assertTrue(none.err().contains("milepost 7.000 is off the road"), none.err());
  }

  private void bring(Shell shell, String kind, String text) throws IOException {
    Path file = Files.writeString(folder.resolve(kind + ".csv"), text);
    Shell.Outcome said = shell.run("import", kind, file.toString());
    assertEquals(ExitCode.DONE, said.code(), said.err());
  }
}
