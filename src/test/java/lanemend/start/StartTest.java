package lanemend.start;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.DataInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.lang.reflect.Method;
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

  /** There is no old Java here: what it would be asked, and that it could ask (above). */
  @Test
  void aJavaTooOldIsSaidInOneSentence() throws Exception {
    Method refusal =
        Class.forName("lanemend.start.Start")
            .getDeclaredMethod("refusal", String.class, String.class);
    refusal.setAccessible(true);
    assertEquals(
        "lanemend needs Java 17 or newer: found Java 8 in /usr/old; install a newer one, or start"
            + " lanemend with its bin/java",
        refusal.invoke(null, "1.8", "/usr/old"));
    assertTrue(((String) refusal.invoke(null, "11", "")).contains("found Java 11"));
    assertEquals("", refusal.invoke(null, "17", ""));
    assertEquals("", refusal.invoke(null, "25", ""));
  }

  @Test
  void fromAnotherFolderAndWithAnEmptyEnvironmentItTellsItsVersion() throws Exception {
    Ended ended = run("--version");
    assertEquals(0, ended.code(), ended.said());
    Pattern line =
        Pattern.compile(
            "lanemend (\\d+\\.\\d+\\.\\d+|unreleased) \\((commit [0-9a-f]{7,} of \\d{4}-\\d\\d-\\d\\d(, with changes)?"
                + "|built without its repository)\\)");
    assertTrue(line.matcher(ended.said().strip()).matches(), ended.said());
  }

  private record Ended(int code, String said) {}

  private Ended run(String... words) throws Exception {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
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
    List<String> parts =
        Pattern.compile(separator, Pattern.LITERAL)
            .splitAsStream(classPath)
            .map(part -> Path.of(part).toAbsolutePath().toString())
            .toList();
    return String.join(separator, parts);
  }
}
