package lanemend.bench;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;

/**
 * Processor time in nanoseconds: what a core spent, however busy the machine is. Linux's clock of
 * another process ticks each 10 ms.
 */
public final class CpuTime {
  private static final long NANOS_PER_TICK = 10_000_000;

  private CpuTime() {}

  /** Of the calling thread. */
  public static long ofThisThread() {
    return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
  }

  /** Of the PostgreSQL process that serves this connection; the trip between them is not in it. */
  public static long ofServer(Connection connection) throws SQLException {
    int pid;
    try (Statement s = connection.createStatement();
        ResultSet r = s.executeQuery("SELECT pg_backend_pid()")) {
      r.next();
      pid = r.getInt(1);
    }
    try {
      // proc(5): behind the name in brackets, fields 14 and 15 are user and system ticks.
      String stat = Files.readString(Path.of("/proc/" + pid + "/stat"));
      List<String> fields = List.of(stat.substring(stat.lastIndexOf(')') + 2).split(" ", -1));
      return (Long.parseLong(fields.get(11)) + Long.parseLong(fields.get(12))) * NANOS_PER_TICK;
    } catch (IOException e) {
      throw new IllegalStateException("no processor time of process " + pid, e);
    }
  }
}
