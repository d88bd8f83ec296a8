package lanemend.web.desk;

import io.javalin.Javalin;
import io.javalin.config.JavalinConfig;
import io.javalin.http.staticfiles.Location;
import io.javalin.json.JavalinJackson;
import java.time.Clock;
import java.time.ZoneId;
import java.util.List;
import java.util.Set;
import lanemend.store.Store;

/**
 * The desk on this computer: pages and JSON over one store, for browsers on the same computer only.
 */
public final class Desk implements AutoCloseable {
  /** The one address it listens on: without sign-in nobody else may come near the data. */
  private static final String LOOPBACK = "127.0.0.1";

  private final Javalin server;
  private Set<String> routes = Set.of();

  private Desk(Store store, DeskSettings settings) {
    CurrentCounty county = new CurrentCounty(store);
    // Read before anybody asks, so that the first page is as quick as the next.
    county.index();
    server = Javalin.create(config -> set(config, county, settings));
  }

  /**
   * Starts a desk.
   *
   * @throws IllegalStateException with one sentence when the port is taken
   */
  public static Desk open(Store store, DeskSettings settings) {
    Desk desk = new Desk(store, settings);
    try {
      desk.server.start(LOOPBACK, settings.port());
    } catch (RuntimeException e) {
      throw new IllegalStateException(
          "the desk cannot listen on port "
              + settings.port()
              + " of this computer ("
              + rootMessage(e)
              + "): name another with --port",
          e);
    }
    return desk;
  }

  private static String rootMessage(Exception e) {
    Throwable at = e;
    while (at.getCause() != null) {
      at = at.getCause();
    }
    return at.getMessage();
  }

  private void set(JavalinConfig config, CurrentCounty county, DeskSettings settings) {
    config.startup.showJavalinBanner = false;
    config.startup.showOldJavalinVersionWarning = false;
    config.startup.startupWatcherEnabled = false;
    config.jsonMapper(new JavalinJackson(Api.JSON, false));
    config.http.maxRequestSize = 20_000_000;
    config.staticFiles.enableWebjars();
    config.staticFiles.add(
        files -> {
          files.hostedPath = "/desk";
          files.directory = Pages.ROOT;
          files.location = Location.CLASSPATH;
          files.headers = java.util.Map.of("Cache-Control", "no-cache");
        });
    Guard guard = new Guard(settings.tiles());
    config.routes.before(guard::check);
    new Pages().addTo(config.routes);
    new PatrolPage().addTo(config.routes);
    Api api = new Api(config.routes);
    Filters filters = new Filters();
    Clock clock = Clock.system(ZoneId.systemDefault());
    OpenApi description = new OpenApi("county", "roads", "defects", "plan", "field", "season");
    api.get("/api/openapi.json", c -> c.json(description.whole()));
    List.of(
            new CountyRoutes(county, filters, settings),
            new RoadRoutes(county, filters),
            new TileRoutes(county, filters),
            new DefectRoutes(county, filters, settings.who(), clock),
            new TreatmentRoutes(county, settings.who(), clock),
            new DuplicateRoutes(county, settings.who()),
            new ChangeRoutes(county, settings.who()),
            new ExportRoutes(county, filters),
            new PlanRoutes(county, settings),
            new SheetRoutes(county, settings),
            new SeasonRoutes(county, clock),
            new LearnedRoutes(county, settings.who(), clock),
            new PhotoRoutes(county, settings.who(), clock),
            new FieldRoutes(county, settings.who(), clock))
        .forEach(area -> area.addTo(api));
    routes = Set.copyOf(api.registered());
  }

  /** Where to point a browser. */
  public String address() {
    return "http://" + LOOPBACK + ":" + server.port() + "/";
  }

  /** Every route of the JSON interface as {@code get /api/county}. */
  Set<String> routes() {
    return routes;
  }

  /** Lets requests at hand end, then stops listening. The store stays open. */
  @Override
  public void close() {
    server.stop();
  }
}
