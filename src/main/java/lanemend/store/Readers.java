package lanemend.store;

import java.sql.Connection;
import java.sql.SQLException;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashSet;
import java.util.Set;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;

/**
 * Connections that read. Several, so that a long reading (an export, the whole county) keeps nobody
 * else waiting; few, since each has its own cache and the machine few cores.
 */
final class Readers implements AutoCloseable {
  private static final int MOST = 4;
  private static final int CLOSE_SECONDS = 20;

  private final Source source;
  private final Semaphore free = new Semaphore(MOST, true);
  private final Deque<Connection> idle = new ArrayDeque<>();
  private final Set<Thread> reading = new HashSet<>();

  /** Makes a connection. */
  @FunctionalInterface
  interface Source {
    Connection connect() throws SQLException;
  }

  /** The first is made at once, so that a file that cannot be read is heard of. */
  Readers(Source source) throws SQLException {
    this.source = source;
    idle.add(source.connect());
  }

  /** One for this thread alone; waits for one to be given back when all are taken. */
  Connection take() throws SQLException {
    synchronized (this) {
      if (!reading.add(Thread.currentThread())) {
        throw new IllegalStateException("a read inside a read: use the snapshot at hand");
      }
    }
    free.acquireUninterruptibly();
    boolean taken = false;
    try {
      Connection c;
      synchronized (this) {
        c = idle.poll();
      }
      Connection made = c == null ? source.connect() : c;
      taken = true;
      return made;
    } finally {
      if (!taken) {
        giveBack(null);
      }
    }
  }

  /**
   * @param c null when there was none to be had
   */
  void giveBack(Connection c) {
    synchronized (this) {
      reading.remove(Thread.currentThread());
      if (c != null) {
        idle.push(c);
      }
    }
    free.release();
  }

  /** Closes all, once those at work are back. */
  @Override
  public void close() throws SQLException {
    try {
      if (!free.tryAcquire(MOST, CLOSE_SECONDS, TimeUnit.SECONDS)) {
        // Somebody reads without end; the file is sound all the same.
        free.drainPermits();
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    synchronized (this) {
      for (Connection c : idle) {
        c.close();
      }
      idle.clear();
    }
  }
}
