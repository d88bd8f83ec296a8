package lanemend.cli;

import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine;

/** How commands speak and end. */
class CommandsTest {
  @TempDir Path folder;

  static List<String> everyCommand() {
    List<String> names = new ArrayList<>();
    addNames("", new CommandLine(new Main()).getSubcommands(), names);
    return names;
  }

  private static void addNames(String before, Map<String, CommandLine> lines, List<String> names) {
    lines.forEach(
        (name, line) -> {
          // 'help' is picocli's own.
          if (!name.equals("help")) {
            names.add(before + name);
            addNames(before + name + " ", line.getSubcommands(), names);
          }
        });
  }

  @ParameterizedTest
  @MethodSource("everyCommand")
  void everyCommandExplainsItself(String command) {
    Shell.Outcome help = Shell.plain((command + " --help").split(" ", -1));
    assertEquals(ExitCode.DONE, help.code(), help.err());
    assertTrue(help.out().startsWith("Usage: lanemend " + command), help.out());
    assertTrue(help.out().lines().allMatch(l -> l.length() <= 80), help.out());
    // A lone % would be told to the user as a fault of picocli, which formats these texts.
    CommandLine line = new CommandLine(new Main());
    for (String name : command.split(" ", -1)) {
      line = line.getSubcommands().get(name);
    }
    for (String text : line.getCommandSpec().usageMessage().description()) {
      assertDoesNotThrow(() -> String.format(text), text);
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"fly", "plan --seed many", "import roads", "export weather"})
  void aWrongCommandLineSaysWhatIsWrongAndEndsWith64(String line) {
    Shell.Outcome said = Shell.plain(line.split(" ", -1));
    assertEquals(ExitCode.USAGE, said.code());
    assertTrue(said.err().contains("--help"), said.err());
  }

  @Test
  void withoutAStoreEveryCommandSaysHowToBegin() {
    Shell.Outcome said = new Shell(folder).run("plan");
    assertEquals(ExitCode.NOTHING_DONE, said.code());
    assertTrue(said.err().contains("import roads"), said.err());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "plan --iterations 0 | found --iterations 0, expected 1 or more",
        "plan --seconds -3 | found --seconds -3.0, expected more than 0",
        "plan prove --seconds 0 | found --seconds 0.0, expected more than 0",
        "plan urgent D-1 --by 2026-05-01 --freeze -1 | found --freeze -1, expected 0 days or more",
        "learn effect --clear --iterations 0 | found --iterations 0, expected 1 or more",
        "duplicates merge --believed 101 | found --believed 101.0, expected a percentage, such as 95",
        "run nowhere --port 70000 | found --port 70000, expected a number from 0 to 65535"
      })
  void aNumberNothingCanBeDoneWithIsRefusedWithWhatIsExpected(String words, String expected) {
    Shell.Outcome said = new Shell(folder).run(words.split(" ", -1));
    assertEquals(ExitCode.NOTHING_DONE, said.code());
    assertEquals(expected, said.err().strip());
  }

  @Test
  void aPlaceThatIsNotOnEarthAndAnUnknownUnitAreRefused() throws IOException {
    Path roads =
        Files.writeString(
            folder.resolve("roads.csv"),
            "route,class,wkt\nSR 1,arterial,\"LINESTRING(-100 40, -99.9 40)\"\n");
    Shell shell = new Shell(folder.resolve("work"));
    Shell.Outcome unit = shell.run("import", "roads", roads.toString(), "--speed-unit", "furlong");
    assertEquals(ExitCode.USAGE, unit.code());
    assertTrue(unit.err().contains("'--speed-unit': expected one of"), unit.err());
    assertEquals(ExitCode.DONE, shell.run("import", "roads", roads.toString()).code());
    Shell.Outcome place = shell.run("locate", "--at", "500,95");
    assertEquals(ExitCode.NOTHING_DONE, place.code());
    assertEquals(
        "found --at 500.0,95.0, expected a longitude from -180 to 180 and a latitude from -90 to 90",
        place.err().strip());
  }

  @Test
  void aCountyThatCannotBeWrittenIsSaidInOneSentence() throws IOException {
    Path file = Files.writeString(folder.resolve("file"), "");
    Shell.Outcome said = Shell.plain("sample", "--out", file.resolve("county").toString());
    assertEquals(ExitCode.NOTHING_DONE, said.code());
    assertTrue(said.err().startsWith("the county cannot be written in " + file), said.err());
  }

  @Test
  void runDoesNotReplaceAStoreItDidNotMake() throws IOException {
    // Given a store a user made by hand, and a county folder
    Path roads =
        Files.writeString(
            folder.resolve("roads.csv"),
            "route,class,wkt\nSR 1,arterial,\"LINESTRING(-100 40, -99.9 40)\"\n");
    Shell shell = new Shell(folder.resolve("work"));
    assertEquals(ExitCode.DONE, shell.run("import", "roads", roads.toString()).code());
    Files.writeString(
        folder.resolve("county.json"),
        "{\"name\":\"Elsewhere\",\"roads\":{\"file\":\"roads.csv\"}}");
    // when the whole job is asked for there, then it refuses
    Shell.Outcome said = shell.run("run", folder.toString());
    assertEquals(ExitCode.NOTHING_DONE, said.code());
    assertTrue(said.err().contains("will not replace"), said.err());
  }

  @Test
  void aMilepostThatOccursTwiceIsAskedAbout() throws IOException {
    // Given a road with an equation: mile 2.0 back is mile 1.5 ahead
    Path roads =
        Files.writeString(
            folder.resolve("roads.csv"),
            "route,class,wkt\nSR 1,arterial,\"LINESTRING(-100 40, -99.9 40)\"\n");
    Path posts =
        Files.writeString(
            folder.resolve("posts.csv"),
            "route,milepost,ahead,distance_m\nSR 1,0,,0\nSR 1,2.0,1.5,3218.688\nSR 1,4,,7242.048\n");
    Shell shell = new Shell(folder.resolve("work"));
    assertEquals(ExitCode.DONE, shell.run("import", "roads", roads.toString()).code());
    assertEquals(ExitCode.DONE, shell.run("import", "posts", posts.toString()).code());
    // when 1.8 is looked for
    Shell.Outcome said = shell.run("locate", "--route", "SR 1", "--milepost", "1.8");
    // then both places are shown with how to write them
    assertEquals(ExitCode.TROUBLE_FOUND, said.code());
    assertTrue(said.out().contains("'1.800 back'"), said.out());
    assertTrue(said.out().contains("'1.800 ahead'"), said.out());
    // and each written so is found: 1.8 mi and 2.0 + 0.3 mi from the start
    assertTrue(
        shell
            .run("locate", "--route", "SR 1", "--milepost", "1.8 ahead")
            .out()
            .contains("12,144 ft along"));
  }
}
