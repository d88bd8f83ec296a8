package lanemend.web.desk;

import io.javalin.http.Context;
import java.io.ByteArrayOutputStream;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import lanemend.accounts.Role;
import lanemend.store.Backups;
import lanemend.store.Store;
import lanemend.store.StoreException;
import lanemend.store.StoreState;

/**
 * How the desk is, for whoever keeps it running: {@code /health} for a watchdog, {@code /metrics}
 * for Prometheus and what reads its format.
 */
final class Operations implements Area {
  /** Below so much room the next plan or import may not fit. */
  static final long LITTLE_ROOM_BYTES = 200_000_000;

  /** So long an answer about the store is good: a watchdog must not become a load. */
  private static final Duration GOOD_FOR = Duration.ofSeconds(1);

  private final Store store;
  private final Path folder;
  private final DeskMetrics metrics;
  private final Clock clock;
  private final Instant started;
  private Looked last;

  Operations(Store store, Path folder, DeskMetrics metrics, Clock clock) {
    this.store = store;
    this.folder = folder;
    this.metrics = metrics;
    this.clock = clock;
    this.started = clock.instant();
    metrics.addStore(this::figures);
  }

  /**
   * What a look at the store gave.
   *
   * @param state null when it could not be read
   * @param said why not
   */
  private record Looked(Instant at, StoreState state, String said, Optional<Duration> backupAge) {}

  /**
   * How it is.
   *
   * @param status {@code up}, {@code low_on_disk} or {@code store_fails}
   * @param more null for those who are not on this computer, nor admins
   */
  record Health(String status, More more) {}

  /**
   * For the operator.
   *
   * @param store what is wrong with it, or {@code ok}
   * @param backupAgeSeconds null when there is no copy in backups/
   */
  record More(
      String store,
      Integer schemaVersion,
      Long lastEdit,
      Instant lastChangeAt,
      Long storeBytes,
      Long logBytes,
      Long freeBytes,
      Long backupAgeSeconds,
      Instant startedAt) {}

  @Override
  public void addTo(Api api) {
    api.get("/health", this::health);
    api.get("/metrics", this::metrics);
  }

  private void health(Context c) {
    Looked now = look();
    StoreState state = now.state();
    boolean low = state != null && state.freeBytes() < LITTLE_ROOM_BYTES;
    String status = state == null ? "store_fails" : low ? "low_on_disk" : "up";
    c.status(state == null ? 503 : 200)
        .header("Cache-Control", "no-store")
        .json(new Health(status, mayKnow(c) ? more(now) : null));
  }

  private More more(Looked now) {
    StoreState s = now.state();
    Long age = now.backupAge().map(Duration::toSeconds).orElse(null);
    return s == null
        ? new More(now.said(), null, null, null, null, null, null, age, started)
        : new More(
            "ok",
            s.schemaVersion(),
            s.lastEdit(),
            s.lastChangeAt().orElse(null),
            s.bytes(),
            s.logBytes(),
            s.freeBytes(),
            age,
            started);
  }

  private void metrics(Context c) {
    if (!mayKnow(c)) {
      throw new Problem(
          Problem.Kind.FOREIGN, "the metrics are for this computer and for the role admin only");
    }
    ByteArrayOutputStream text = new ByteArrayOutputStream();
    metrics.write(text);
    c.header("Cache-Control", "no-store")
        .result(text.toString(StandardCharsets.UTF_8))
        .contentType(metrics.contentType());
  }

  private Optional<DeskMetrics.StoreFigures> figures() {
    Looked now = look();
    StoreState s = now.state();
    return Optional.ofNullable(s)
        .map(
            x ->
                new DeskMetrics.StoreFigures(
                    x.bytes(),
                    x.logBytes(),
                    x.freeBytes(),
                    x.lastEdit(),
                    now.backupAge().map(a -> (double) a.toSeconds()).orElse(Double.NaN)));
  }

  private synchronized Looked look() {
    Instant now = clock.instant();
    boolean good = last != null && Duration.between(last.at(), now).abs().compareTo(GOOD_FOR) < 0;
    if (!good) {
      last = lookAnew(now);
    }
    return last;
  }

  private Looked lookAnew(Instant now) {
    Optional<Duration> age = Optional.empty();
    try {
      age =
          new Backups(folder.resolve("backups"), store.file())
              .newest()
              .map(b -> Duration.between(b.at(), now));
      return new Looked(now, StoreState.of(store), "", age);
    } catch (StoreException e) {
      return new Looked(now, null, e.getMessage(), age);
    }
  }

  private static boolean mayKnow(Context c) {
    return isHere(c)
        || Caller.known(c).filter(who -> who.signedIn() && who.is(Role.ADMIN)).isPresent();
  }

  /** True for a program on this computer that comes by itself and not through a proxy. */
  private static boolean isHere(Context c) {
    if (c.header("X-Forwarded-For") != null || c.header("Forwarded") != null) {
      return false;
    }
    try {
      return InetAddress.getByName(c.req().getRemoteAddr()).isLoopbackAddress();
    } catch (UnknownHostException e) {
      return false;
    }
  }
}
