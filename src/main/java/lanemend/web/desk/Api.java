package lanemend.web.desk;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.datatype.jsr310.JavaTimeModule;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.Handler;
import io.javalin.http.HttpResponseException;
import java.io.EOFException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import lanemend.accounts.NoRoomForAccountsException;
import lanemend.county.NotReady;
import lanemend.exchange.ExchangeException;
import lanemend.exchange.RowProblem;
import lanemend.store.NoRoomException;
import lanemend.store.StoreException;
import org.eclipse.jetty.http.HttpException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Registers routes, keeps a list of them for the description's test, and words what went wrong. */
final class Api {
  /** How everything is written and read: unknown members are refused, so that no typo is lost. */
  static final ObjectMapper JSON =
      new ObjectMapper()
          .registerModule(new JavaTimeModule())
          .disable(SerializationFeature.WRITE_DATES_AS_TIMESTAMPS)
          .enable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES);

  private static final Logger LOG = LoggerFactory.getLogger("lanemend.desk");
  private static final String PROBLEM_TYPE = "application/problem+json";

  private final RoutesConfig routes;
  private final Access access;
  private final Set<String> registered = new TreeSet<>();
  private final DeskMetrics metrics = new DeskMetrics();
  private final List<Runnable> atStop = new ArrayList<>();

  Api(RoutesConfig routes, Access access) {
    this.routes = routes;
    this.access = access;
    routes.exception(Problem.class, (e, c) -> send(c, e));
    routes.exception(
        NotReady.class, (e, c) -> send(c, new Problem(Problem.Kind.NOT_READY, e.getMessage())));
    routes.exception(ExchangeException.class, (e, c) -> send(c, unread(e)));
    routes.exception(NoRoomException.class, Api::noRoom);
    routes.exception(NoRoomForAccountsException.class, Api::noRoom);
    routes.exception(StoreException.class, (e, c) -> fault(c, e.getMessage(), e));
    routes.exception(
        HttpResponseException.class,
        (e, c) -> {
          switch (e.getStatus()) {
            case 404 -> nothingThere(c);
            case 413 ->
                send(
                    c,
                    new Problem(
                        Problem.Kind.TOO_LARGE,
                        "the request is larger than " + Desk.MOST_BYTES + " bytes"));
            default -> send(c, new Problem(Problem.Kind.BAD_REQUEST, e.getMessage()));
          }
        });
    routes.exception(
        Exception.class,
        (e, c) -> {
          if (brokeOff(e)) {
            send(c, new Problem(Problem.Kind.BAD_REQUEST, "the request broke off before its end"));
          } else {
            // What went wrong inside is for the log.
            fault(c, "the desk made a mistake at " + c.path(), e);
          }
        });
  }

  Api get(String path, Handler handler) {
    note("get", path);
    routes.get(path, access.guarded("get", path, handler));
    return this;
  }

  Api post(String path, Handler handler) {
    note("post", path);
    routes.post(path, access.guarded("post", path, handler));
    return this;
  }

  Api put(String path, Handler handler) {
    note("put", path);
    routes.put(path, access.guarded("put", path, handler));
    return this;
  }

  Api delete(String path, Handler handler) {
    note("delete", path);
    routes.delete(path, access.guarded("delete", path, handler));
    return this;
  }

  /** A page, which is none of the JSON interface. */
  void page(String path, Handler handler) {
    routes.get(path, access.guardedPage(path, handler));
  }

  /** Who typed an address into a browser gets a page that leads back, a program gets JSON. */
  private static void nothingThere(Context c) {
    String accept = c.header("Accept");
    if (accept != null && accept.contains("text/html") && !c.path().startsWith("/api/")) {
      c.status(404).html(Pages.text("shared/missing.html"));
    } else {
      send(c, new Problem(Problem.Kind.NOT_FOUND, "there is nothing at " + c.path()));
    }
  }

  /** A sender that went away in the middle, or sent no HTTP, is no fault of the desk. */
  private static boolean brokeOff(Throwable e) {
    for (Throwable at = e; at != null; at = at.getCause()) {
      if (at instanceof HttpException || at instanceof EOFException) {
        return true;
      }
    }
    return false;
  }

  /** Nobody's mistake and soon put right, so no fault; {@code /health} says the same. */
  private static void noRoom(Exception e, Context c) {
    LOG.atError().addKeyValue("where", RequestLog.route(c)).log(e.getMessage());
    send(
        c,
        new Problem(
            Problem.Kind.NO_ROOM,
            "the desk's disk is full, so nothing was changed: keep what you wrote, and ask whoever"
                + " runs the desk to make room"));
  }

  private void fault(Context c, String sentence, Exception cause) {
    metrics.fault();
    send(c, Fault.told(c, sentence, cause));
  }

  DeskMetrics metrics() {
    return metrics;
  }

  /** Has something ended when the desk stops, before the store is closed. */
  void atStop(Runnable end) {
    atStop.add(end);
  }

  /** Ends what would otherwise go on in the background. */
  void stop() {
    atStop.forEach(Runnable::run);
  }

  private void note(String method, String path) {
    registered.add(method + " " + path);
  }

  /** Every route as {@code get /api/defects/{id}}. */
  Set<String> registered() {
    return registered;
  }

  /** Reads a request's JSON. */
  static <T> T body(Context c, Class<T> type) {
    try {
      T read = JSON.readValue(c.body(), type);
      if (read != null) {
        return read;
      }
    } catch (JsonProcessingException e) {
      throw new Problem(
          Problem.Kind.BAD_REQUEST, "the request's JSON cannot be read: " + e.getOriginalMessage());
    }
    throw new Problem(Problem.Kind.BAD_REQUEST, "the request has no content");
  }

  /** A query parameter that must be there. */
  static String wanted(Context c, String name) {
    String value = c.queryParam(name);
    if (value == null || value.isBlank()) {
      throw new Problem(Problem.Kind.BAD_REQUEST, "the parameter '" + name + "' is missing");
    }
    return value;
  }

  /** A query parameter that is a finite number. */
  static double number(Context c, String name) {
    return number(name, wanted(c, name));
  }

  static double number(String name, String value) {
    try {
      double number = Double.parseDouble(value);
      if (Double.isFinite(number)) {
        return number;
      }
    } catch (NumberFormatException e) {
      // Falls through to the same sentence as an infinite one.
    }
    throw new Problem(
        Problem.Kind.BAD_REQUEST, "'" + name + "' is '" + value + "', expected a number");
  }

  /** A query parameter that is a whole number in a range, or {@code otherwise} when absent. */
  static int whole(Context c, String name, int otherwise, int least, int most) {
    String value = c.queryParam(name);
    if (value == null || value.isBlank()) {
      return otherwise;
    }
    double number = number(name, value);
    if (number != Math.rint(number) || number < least || number > most) {
      throw new Problem(
          Problem.Kind.BAD_REQUEST,
          String.format(
              Locale.ROOT,
              "'%s' is '%s', expected a whole number from %d to %d",
              name,
              value,
              least,
              most));
    }
    return (int) number;
  }

  static void send(Context c, Problem problem) {
    try {
      c.status(problem.status())
          .contentType(PROBLEM_TYPE)
          .result(JSON.writeValueAsString(problem.body()));
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("a problem cannot be written", e);
    }
  }

  /** What could not be read, with its place where that is known. */
  private static Problem unread(ExchangeException e) {
    RowProblem p = e.problem();
    if (!p.file().equals("filter")) {
      return new Problem(Problem.Kind.BAD_VALUE, p.text())
          .with("field", p.field())
          .with("found", p.found())
          .with("expected", p.expected());
    }
    Problem problem =
        new Problem(
                Problem.Kind.BAD_FILTER,
                (p.found().isEmpty() ? "Found nothing" : "Found '" + p.found() + "'")
                    + ", expected "
                    + p.expected())
            .with("found", p.found())
            .with("expected", p.expected());
    String place = p.field();
    if (place.startsWith("character ")) {
      problem.with("position", Integer.parseInt(place.substring("character ".length())));
    }
    return problem;
  }
}
