package lanemend.web.desk;

import io.javalin.Javalin;
import io.javalin.config.JavalinConfig;
import io.javalin.http.staticfiles.Location;
import io.javalin.json.JavalinJackson;
import java.time.Clock;
import java.time.ZoneId;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import lanemend.accounts.SignIn;
import lanemend.store.Store;
import org.eclipse.jetty.server.Server;
import org.eclipse.jetty.server.handler.GracefulHandler;

/**
 * The desk: pages and JSON over one store. Who may come in is said by its {@link Door}: as it
 * comes, browsers on the same computer only.
 */
public final class Desk implements AutoCloseable {
  /** Most that a request may hold. */
  static final long MOST_BYTES = 20_000_000;

  /** Largest file that is kept packed. */
  private static final int MOST_PACKED = 1_000_000;

  /** Longest a stop waits for requests at hand. */
  private static final long STOP_MILLIS = 20_000;

  private final Javalin server;
  private final Door door;
  private Set<String> routes = Set.of();
  private Runnable endWork = () -> {};

  private Desk(Store store, DeskSettings settings, Door door) {
    this.door = door;
    CurrentCounty county = new CurrentCounty(store);
    county.begin();
    server = Javalin.create(config -> set(config, county, settings));
  }

  /** Starts a desk for one user on this computer. */
  public static Desk open(Store store, DeskSettings settings) {
    return open(store, settings, Door.ofThisComputer());
  }

  /**
   * Starts a desk.
   *
   * @throws IllegalStateException with one sentence when the port is taken, or the keys cannot be
   *     read
   */
  public static Desk open(Store store, DeskSettings settings, Door door) {
    door.tls().ifPresent(DeskTls::check);
    Desk desk = new Desk(store, settings, door);
    try {
      desk.server.start(door.address(), settings.port());
    } catch (RuntimeException e) {
      throw new IllegalStateException(
          "the desk cannot listen on port "
              + settings.port()
              + " of "
              + door.address()
              + " ("
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
    server(config, settings);
    Guard guard = new Guard(settings.tiles(), door);
    config.routes.before(guard::check);
    config.routes.after(Guard::end);
    Sessions sessions = new Sessions(door.accounts(), Clock.systemUTC());
    if (door.accounts().isPresent()) {
      config.jetty.modifyServletContextHandler(
          h -> h.setSessionHandler(Sessions.handler(door.encrypted())));
    }
    Access access = new Access(door, sessions, settings.who());
    Api api = new Api(config.routes, access);
    api.atStop(county::awaitBegun);
    endWork = api::stop;
    config.requestLogger.http(new RequestLog(api.metrics())::answered);
    new Pages(access).addTo(api);
    new PatrolPage().addTo(api);
    areas(api, county, settings).forEach(area -> area.addTo(api));
    Optional<SignIn> signIn = door.accounts().map(SignIn::new);
    PasswordAgain again = new PasswordAgain(signIn);
    SessionRoutes own = new SessionRoutes(access, sessions, door, signIn, again);
    own.addTo(api);
    new SecondFactorRoutes(sessions, own, door, again).addTo(api);
    new SessionListRoutes(sessions, door, again).addTo(api);
    new AccountRoutes(door).addTo(api);
    routes = Set.copyOf(api.registered());
  }

  private static List<Area> areas(Api api, CurrentCounty county, DeskSettings settings) {
    Filters filters = new Filters();
    Clock clock = Clock.system(ZoneId.systemDefault());
    OpenApi description =
        new OpenApi(
            "county",
            "roads",
            "defects",
            "plan",
            "field",
            "findings",
            "renewal",
            "season",
            "records",
            "accounts",
            "operations");
    api.get("/api/openapi.json", c -> c.json(description.whole()));
    return List.of(
        new CountyRoutes(county, filters, settings),
        new RoadRoutes(county, filters),
        new TileRoutes(county, filters),
        new DefectRoutes(county, filters, clock),
        new TreatmentRoutes(county, clock),
        new DuplicateRoutes(county),
        new ChangeRoutes(county),
        new ExportRoutes(county, filters),
        new PlanRoutes(county),
        new SheetRoutes(county),
        new PhotoRoutes(county, clock),
        new FieldRoutes(county, clock),
        new FieldFindingRoutes(county, clock),
        new FindingRoutes(county),
        new RenewalRoutes(county),
        new SeasonRoutes(county, clock),
        new LearnedRoutes(county, clock),
        new Operations(county.store(), settings.folder(), api.metrics(), clock));
  }

  /** What lies below the routes: sizes, files, TLS, errors of the server itself. */
  private void server(JavalinConfig config, DeskSettings settings) {
    config.startup.showJavalinBanner = false;
    config.startup.showOldJavalinVersionWarning = false;
    config.startup.startupWatcherEnabled = false;
    config.jsonMapper(new JavalinJackson(Api.JSON, false));
    config.http.maxRequestSize = MOST_BYTES;
    config.jetty.modifyServer(server -> server.setErrorHandler(new PlainErrors()));
    config.jetty.modifyHttpConfiguration(http -> http.setSendServerVersion(false));
    // A library's address has its version in it.
    files(config, "/webjars", "META-INF/resources/webjars", "max-age=31622400");
    files(config, "/desk", Pages.ROOT, "no-cache");
    config.jetty.modifyServer(Desk::stopGracefully);
    door.tls()
        .ifPresent(
            tls ->
                config.jetty.addConnector(
                    (server, http) ->
                        DeskTls.connector(server, http, tls, door.address(), settings.port())));
  }

  /** Files of the class path, each packed once and kept packed. */
  private static void files(JavalinConfig config, String at, String from, String caching) {
    config.staticFiles.add(
        files -> {
          files.hostedPath = at;
          files.directory = from;
          files.location = Location.CLASSPATH;
          files.headers = java.util.Map.of("Cache-Control", caching);
          files.precompressMaxSize = MOST_PACKED;
        });
  }

  /** Where to point a browser. */
  public String address() {
    String host = door.address().contains(":") ? "[" + door.address() + "]" : door.address();
    return (door.tls().isPresent() ? "https://" : "http://") + host + ":" + server.port() + "/";
  }

  /** Every route of the JSON interface as {@code get /api/county}. */
  Set<String> routes() {
    return routes;
  }

  /** Every route of the server, pages too, as {@code get /map}. */
  Set<String> everyRoute() {
    return server.unsafe.internalRouter.allHttpHandlers().stream()
        .map(h -> h.endpoint)
        .filter(e -> e.method.isHttpMethod())
        .map(e -> e.method.name().toLowerCase(Locale.ROOT) + " " + e.path)
        .collect(Collectors.toSet());
  }

  /** New requests are refused while those at hand end, but none is waited for without end. */
  private static void stopGracefully(Server server) {
    server.setHandler(new GracefulHandler());
    server.setStopTimeout(STOP_MILLIS);
  }

  /** Ends plan runs, lets requests at hand end, then stops listening. The store stays open. */
  @Override
  public void close() {
    endWork.run();
    server.stop();
  }
}
