package lanemend.cli;

import java.lang.reflect.Method;
import java.lang.reflect.Proxy;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;

/**
 * Lets a program end by itself when it is told to (Ctrl+C, SIGTERM, the terminal closed), with the
 * exit code of what it did. The second time it ends at once.
 *
 * <p>A shutdown hook could not do that: the Java machine then ends with 143. The class that catches
 * signals is the JDK's, but none of its public interface, so it is looked for by name; where it is
 * missing, a hook holds the program until it has ended, and only the exit code is another.
 */
final class StopSignal {
  private static final String[] NAMES = {"TERM", "INT", "HUP"};

  private final CountDownLatch asked = new CountDownLatch(1);
  private final CountDownLatch ended = new CountDownLatch(1);
  private final List<Callable<Object>> putBack = new ArrayList<>();

  StopSignal() {
    boolean caught = false;
    for (String name : NAMES) {
      caught |= onSignal(name);
    }
    if (!caught) {
      Runtime.getRuntime().addShutdownHook(new Thread(this::hold, "stop"));
    }
  }

  private void hold() {
    asked.countDown();
    wait(ended);
  }

  private boolean onSignal(String name) {
    try {
      Class<?> signal = Class.forName("sun.misc.Signal");
      Class<?> handler = Class.forName("sun.misc.SignalHandler");
      Object usual = handler.getField("SIG_DFL").get(null);
      Object ours =
          Proxy.newProxyInstance(
              handler.getClassLoader(),
              new Class<?>[] {handler},
              (proxy, method, args) -> {
                if (method.getName().equals("handle")) {
                  asked.countDown();
                  signal.getMethod("handle", signal, handler).invoke(null, args[0], usual);
                }
                return null;
              });
      Method handle = signal.getMethod("handle", signal, handler);
      Object of = signal.getConstructor(String.class).newInstance(name);
      Object before = handle.invoke(null, of, ours);
      putBack.add(() -> handle.invoke(null, of, before));
      return true;
    } catch (ReflectiveOperationException e) {
      // Not there, or the system has no such signal, or the Java machine was told to keep it.
      return false;
    }
  }

  /** Waits until the program is told to end. */
  void await() {
    wait(asked);
  }

  /** Says that the program has ended what it did; signals do again what they did before. */
  void done() {
    ended.countDown();
    try {
      for (Callable<Object> back : putBack) {
        back.call();
      }
    } catch (Exception e) {
      throw new IllegalStateException("signals cannot be given back", e);
    }
  }

  private static void wait(CountDownLatch latch) {
    try {
      latch.await();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
