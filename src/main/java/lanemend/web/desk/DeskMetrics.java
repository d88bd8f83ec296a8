package lanemend.web.desk;

import io.prometheus.metrics.core.metrics.Counter;
import io.prometheus.metrics.core.metrics.CounterWithCallback;
import io.prometheus.metrics.core.metrics.GaugeWithCallback;
import io.prometheus.metrics.core.metrics.Histogram;
import io.prometheus.metrics.expositionformats.PrometheusTextFormatWriter;
import io.prometheus.metrics.instrumentation.jvm.JvmMetrics;
import io.prometheus.metrics.model.registry.PrometheusRegistry;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.util.Optional;
import java.util.function.DoubleSupplier;
import java.util.function.Supplier;

/** What the desk counts and measures of itself, in the text format Prometheus reads. */
final class DeskMetrics {
  private static final double MILLIS = 1e-3;

  private final PrometheusRegistry registry = new PrometheusRegistry();
  private final PrometheusTextFormatWriter text =
      PrometheusTextFormatWriter.builder().setIncludeCreatedTimestamps(false).build();
  private final Counter requests =
      Counter.builder()
          .name("lanemend_requests_total")
          .help("Requests answered, by route and status")
          .labelNames("method", "route", "status")
          .register(registry);
  private final Histogram seconds =
      Histogram.builder()
          .name("lanemend_request_seconds")
          .help("Time from a request's arrival to its answer, by kind of request")
          .labelNames("kind")
          .classicOnly()
          .classicUpperBounds(.005, .01, .025, .05, .1, .25, .5, 1, 2.5, 5, 10)
          .register(registry);
  private final Counter faults =
      Counter.builder()
          .name("lanemend_faults_total")
          .help("Requests that failed by a fault of the desk or its store")
          .register(registry);
  private final Counter planRuns =
      Counter.builder()
          .name("lanemend_plan_runs_total")
          .help("Plan runs that ended, by how")
          .labelNames("ended")
          .register(registry);

  DeskMetrics() {
    JvmMetrics.builder().register(registry);
  }

  /** Adds what is asked of the store when somebody asks for the metrics. */
  void addStore(Supplier<Optional<StoreFigures>> store) {
    gauge(
        "lanemend_store_up", "1 when the store can be read", () -> store.get().isPresent() ? 1 : 0);
    gauge("lanemend_store_bytes", "Size of the store's file", () -> of(store, StoreFigures::bytes));
    gauge(
        "lanemend_store_log_bytes",
        "Size of the write-ahead log beside the store",
        () -> of(store, StoreFigures::logBytes));
    gauge(
        "lanemend_disk_free_bytes",
        "Room left on the store's disk",
        () -> of(store, StoreFigures::freeBytes));
    gauge(
        "lanemend_backup_age_seconds",
        "Age of the newest copy in backups/, NaN when there is none",
        () -> of(store, StoreFigures::backupAgeSeconds));
    CounterWithCallback.builder()
        .name("lanemend_changes_total")
        .help("Writes in the change log, by whatever program")
        .callback(c -> c.call(of(store, StoreFigures::lastEdit)))
        .register(registry);
  }

  /**
   * Figures of the store.
   *
   * @param backupAgeSeconds NaN when there is no copy
   */
  record StoreFigures(
      double bytes, double logBytes, double freeBytes, double lastEdit, double backupAgeSeconds) {}

  private static double of(
      Supplier<Optional<StoreFigures>> store,
      java.util.function.ToDoubleFunction<StoreFigures> figure) {
    return store.get().map(figure::applyAsDouble).orElse(Double.NaN);
  }

  private void gauge(String name, String help, DoubleSupplier value) {
    GaugeWithCallback.builder()
        .name(name)
        .help(help)
        .callback(c -> c.call(value.getAsDouble()))
        .register(registry);
  }

  void answered(String method, String route, int status, double millis) {
    requests.labelValues(method, route, String.valueOf(status)).inc();
    boolean reads = method.equals("get") || method.equals("head");
    seconds.labelValues(reads ? "read" : "write").observe(millis * MILLIS);
  }

  void fault() {
    faults.inc();
  }

  /**
   * @param ended {@code kept} or {@code failed}
   */
  void planRun(String ended) {
    planRuns.labelValues(ended).inc();
  }

  String contentType() {
    return text.getContentType();
  }

  void write(OutputStream out) {
    // By way of memory: a scrape cut off halfway would read as counters set back.
    ByteArrayOutputStream whole = new ByteArrayOutputStream();
    try {
      text.write(whole, registry.scrape());
      whole.writeTo(out);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
