package lanemend.bench;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * A PostgreSQL server of the benchmark's own, on the loopback address and in a folder of its own
 * (Debian's postgresql-15 and postgresql-15-postgis-3). PostgreSQL refuses to run as root; then the
 * account postgres, which Debian's package makes, runs it.
 */
public final class PostgresServer implements AutoCloseable {
  private static final Path BIN = Path.of("/usr/lib/postgresql/15/bin");

  /** Memory beyond need, no disk waits and one core: what a peer measured per core should have. */
  private static final String SETTINGS =
      """
      listen_addresses = '127.0.0.1'
      shared_buffers = 2GB
      work_mem = 2GB
      maintenance_work_mem = 1GB
      effective_cache_size = 8GB
      random_page_cost = 1.1
      fsync = off
      synchronous_commit = off
      full_page_writes = off
      max_wal_size = 16GB
      max_parallel_workers_per_gather = 0
      max_parallel_maintenance_workers = 0
      autovacuum = off
      """;

  private final Path folder;
  private final int port;

  private PostgresServer(Path folder, int port) {
    this.folder = folder;
    this.port = port;
  }

  /**
   * Makes and starts a server.
   *
   * @throws IllegalStateException when PostgreSQL 15 is not installed or does not start
   */
  public static PostgresServer start() throws IOException, InterruptedException {
    if (!Files.isExecutable(BIN.resolve("initdb"))) {
      throw new IllegalStateException(
          "no PostgreSQL 15 in " + BIN + "; apt-get install postgresql-15 postgresql-15-postgis-3");
    }
    Path folder = Files.createTempDirectory("lanemend-postgres");
    int port;
    try (ServerSocket free = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      port = free.getLocalPort();
    }
    if (isRoot()) {
      run(List.of("chown", "postgres", folder.toString()));
    }
    PostgresServer server = new PostgresServer(folder, port);
    String data = server.data().toString();
    run(asUser(BIN.resolve("initdb") + "", "-D", data, "-U", "bench", "-A", "trust", "-E", "UTF8", "--locale=C"));
    Path conf = server.data().resolve("postgresql.conf");
    Files.writeString(
        conf,
        SETTINGS + "port = " + port + "\nunix_socket_directories = '" + folder + "'\n",
        StandardCharsets.UTF_8,
        StandardOpenOption.APPEND);
    run(asUser(BIN.resolve("pg_ctl") + "", "-D", data, "-w", "-l", folder + "/log", "start"));
    return server;
  }

  private Path data() {
    return folder.resolve("data");
  }

  /** A new connection. */
  public Connection connect() throws SQLException {
    return DriverManager.getConnection(
        "jdbc:postgresql://127.0.0.1:" + port + "/postgres?user=bench");
  }

  private static boolean isRoot() {
    return System.getProperty("user.name").equals("root");
  }

  private static List<String> asUser(String... command) {
    List<String> all = new ArrayList<>();
    if (isRoot()) {
      all.addAll(List.of("setpriv", "--reuid=postgres", "--regid=postgres", "--clear-groups"));
    }
    all.addAll(List.of(command));
    return all;
  }

  private static void run(List<String> command) throws IOException, InterruptedException {
    Process p =
        new ProcessBuilder(command)
            .redirectErrorStream(true)
            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
            .start();
    if (!p.waitFor(120, TimeUnit.SECONDS) || p.exitValue() != 0) {
      throw new IllegalStateException("failed: " + String.join(" ", command));
    }
  }

  @Override
  public void close() {
    try {
      run(asUser(BIN.resolve("pg_ctl") + "", "-D", data() + "", "-m", "immediate", "-w", "stop"));
      run(List.of("rm", "-rf", folder.toString()));
    } catch (IOException e) {
      throw new IllegalStateException("the server could not be stopped, see " + folder, e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
