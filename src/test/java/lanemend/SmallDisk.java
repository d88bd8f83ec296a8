package lanemend;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Assumptions;

/** A disk that can really be full: a file system of its own, which only root may make. */
public final class SmallDisk implements AutoCloseable {
  private final Path folder;

  private SmallDisk(Path folder) {
    this.folder = folder;
  }

  /**
   * Puts one into a folder; without root the test that asks for it is skipped.
   *
   * @param megabytes how much it holds
   */
  public static SmallDisk in(Path parent, int megabytes) throws IOException {
    Path folder = Files.createDirectory(parent.resolve("disk"));
    Assumptions.assumeTrue(
        run("mount", "-t", "tmpfs", "-o", "size=" + megabytes + "m", "tmpfs", folder.toString()),
        "only root may mount a small disk");
    return new SmallDisk(folder);
  }

  public Path folder() {
    return folder;
  }

  /** Writes until nothing more fits; deleting what is returned makes room again. */
  public Path fill() {
    Path fill = folder.resolve("fill");
    byte[] page = new byte[4096];
    try (OutputStream out = Files.newOutputStream(fill)) {
      while (true) {
        out.write(page);
      }
    } catch (IOException e) {
      return fill;
    }
  }

  @Override
  public void close() {
    run("umount", folder.toString());
  }

  private static boolean run(String... command) {
    try {
      Process p = new ProcessBuilder(command).redirectErrorStream(true).start();
      p.getInputStream().readAllBytes();
      return p.waitFor(20, TimeUnit.SECONDS) && p.exitValue() == 0;
    } catch (IOException e) {
      return false;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return false;
    }
  }
}
