package lanemend.store;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectKind;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.Entered;
import lanemend.inventory.Finding;
import lanemend.inventory.FindingKind;
import lanemend.inventory.PastPatch;
import lanemend.inventory.Place;
import lanemend.inventory.RoadAttribute;
import lanemend.inventory.Severity;
import lanemend.network.CalibrationPost;
import lanemend.network.CenterlinePart;
import lanemend.network.Connector;
import lanemend.network.Edition;
import lanemend.network.Lane;
import lanemend.network.MilepostMap;
import lanemend.network.Network;
import lanemend.network.PiecewiseMileposts;
import lanemend.network.ProjectedCrs;
import lanemend.network.RoadClass;
import lanemend.network.Route;
import lanemend.network.Side;
import lanemend.renewal.DecidedSection;
import lanemend.renewal.EngineerDecision;

/** Roads and records made up by a seed, for the tests to write and read back. */
final class Invented {
  private static final double VERTEX_EVERY_M = 30;
  private static final LocalDate START = LocalDate.of(2026, 3, 2);
  private final Random random;

  /** Kept apart so that what needs no system does not wait for GeoTools. */
  static final class Utm15 {
    static final ProjectedCrs CRS = ProjectedCrs.utmFor(-93.2, 41.5);

    private Utm15() {}
  }

  Invented(long seed) {
    this.random = new Random(seed);
  }

  /** Winding routes of this length; every third has a gap, every fourth no posts. */
  Network network(int routes, double lengthM, int connectors) {
    Map<String, Route> made = new LinkedHashMap<>();
    for (int i = 0; i < routes; i++) {
      Route r = route("SR " + (i + 1), lengthM, i % 3 == 2, i % 4 != 3);
      made.put(r.id(), r);
    }
    List<Connector> links = new ArrayList<>();
    for (int i = 0; i < connectors; i++) {
      links.add(
          new Connector("C" + i, "Mill Lane " + i, RoadClass.LOCAL, winding(0, 60 + i).get(0)));
    }
    return new Network(Utm15.CRS.wkt(), made, links);
  }

  Route route(String name, double lengthM, boolean gap, boolean posts) {
    List<CenterlinePart> parts = winding(lengthM, gap);
    double end = parts.get(parts.size() - 1).toAlong();
    MilepostMap mileposts = PiecewiseMileposts.uncalibrated(end);
    if (posts) {
      // An equation half way: 12.3 back is 11.9 ahead, an overlap.
      mileposts =
          PiecewiseMileposts.of(
              List.of(
                  CalibrationPost.at(0, 10),
                  new CalibrationPost(end / 2, 10 + end / 3300, 10 + end / 3300 - 0.4),
                  CalibrationPost.at(end, 10 + end / 1600)),
              end);
    }
    return new Route(
        name, name, "", one(RoadClass.class), parts, mileposts, new Edition(1, START, null));
  }

  private List<CenterlinePart> winding(double lengthM, boolean gap) {
    int half = (int) (lengthM / VERTEX_EVERY_M / 2);
    List<CenterlinePart> first = winding(0, Math.max(2, half));
    if (!gap) {
      return winding(0, Math.max(2, 2 * half));
    }
    return List.of(first.get(0), winding(first.get(0).toAlong() + 40, Math.max(2, half)).get(0));
  }

  private List<CenterlinePart> winding(double fromAlong, int vertices) {
    double[] x = new double[vertices];
    double[] y = new double[vertices];
    double[] along = new double[vertices];
    double heading = random.nextDouble() * 6;
    x[0] = 480_000 + 20_000 * random.nextDouble();
    y[0] = 4_590_000 + 20_000 * random.nextDouble();
    along[0] = fromAlong;
    for (int i = 1; i < vertices; i++) {
      heading += (random.nextDouble() - 0.5) * 0.3;
      x[i] = x[i - 1] + VERTEX_EVERY_M * Math.cos(heading);
      y[i] = y[i - 1] + VERTEX_EVERY_M * Math.sin(heading);
      along[i] = along[i - 1] + VERTEX_EVERY_M * 1.0004;
    }
    return List.of(new CenterlinePart(x, y, along));
  }

  List<Defect> defects(Network on, int count) {
    return defects(on, "D-", count);
  }

  List<Defect> defects(Network on, String prefix, int count) {
    List<Defect> made = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      made.add(
          new Defect(
              prefix + (i + 1),
              one(DefectKind.class),
              one(Severity.class),
              place(on),
              new Lane(one(Side.class), random.nextInt(4)),
              random.nextDouble() * 30,
              random.nextDouble() * 3,
              random.nextDouble() / 10,
              START.plusDays(random.nextInt(300)),
              "patrol " + random.nextInt(5),
              random.nextBoolean() ? "" : "img" + i + ".jpg",
              DefectStatus.OPEN,
              random.nextBoolean() ? "" : "by the \"old\" mill, 'north' side \u00e9"));
    }
    return made;
  }

  List<Finding> findings(Network on, int count) {
    List<Finding> made = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      made.add(
          new Finding(
              "F-" + i,
              one(FindingKind.class),
              place(on),
              one(Side.class),
              START.plusDays(random.nextInt(300)),
              "patrol",
              "post leans"));
    }
    return made;
  }

  List<PastPatch> patches(Network on, int count) {
    List<PastPatch> made = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      boolean recorded = random.nextBoolean();
      made.add(
          new PastPatch(
              "P-" + i,
              "blade patch",
              place(on),
              recorded ? new Lane(Side.RIGHT, 1) : null,
              START.minusDays(random.nextInt(3000)),
              recorded ? random.nextDouble() * 40 : null,
              recorded ? random.nextDouble() * 8 : null,
              recorded ? BigDecimal.valueOf(random.nextInt(1_000_000), 2) : null));
    }
    return made;
  }

  List<RoadAttribute> attributes(Network on, int perRoute) {
    List<RoadAttribute> made = new ArrayList<>();
    for (Route r : on.routes().values()) {
      for (int i = 0; i < perRoute; i++) {
        made.add(
            new RoadAttribute(
                r.id(),
                r.lengthM() * i / perRoute,
                r.lengthM() * (i + 1) / perRoute,
                "aadt",
                String.valueOf(200 + random.nextInt(9000)),
                i % 2 == 0 ? START : null,
                i % 3 == 0 ? START.plusYears(1) : null));
      }
    }
    return made;
  }

  /** A decision of each kind, on the middle third of the first routes. */
  List<DecidedSection> decisions(Network on) {
    List<DecidedSection> made = new ArrayList<>();
    for (Route r : on.routes().values()) {
      EngineerDecision.Kind[] kinds = EngineerDecision.Kind.values();
      if (made.size() == kinds.length) {
        break;
      }
      EngineerDecision.Kind kind = kinds[made.size()];
      boolean agreed =
          kind == EngineerDecision.Kind.ACCEPTED || kind == EngineerDecision.Kind.LIMITS_CHANGED;
      made.add(
          new DecidedSection(
              r.id(),
              new EngineerDecision(
                  r.id() + " middle",
                  kind,
                  r.lengthM() / 3,
                  r.lengthM() * 2 / 3,
                  kind == EngineerDecision.Kind.DEFERRED ? 2029 : 0,
                  "cores show the \"old\" mat is sound, but for 'seams'",
                  "E. Invented, P.E.",
                  START.plusDays(made.size())),
              agreed ? 2027 : 0));
    }
    return made;
  }

  Place place(Network on) {
    List<Route> routes = List.copyOf(on.routes().values());
    Route r = routes.get(random.nextInt(routes.size()));
    double from = random.nextDouble() * (r.lengthM() - 50);
    double to = random.nextBoolean() ? from : from + random.nextDouble() * 50;
    double[] xy = new RoadLine(r.parts()).at((from + to) / 2);
    Entered entered =
        random.nextBoolean()
            ? Entered.byMilepost(r.name(), "12.3", random.nextBoolean() ? null : "12.4 back")
            : Entered.byPoint(null, -93 + random.nextDouble(), 41 + random.nextDouble());
    return new Place(r.id(), from, to, xy[0], xy[1], entered);
  }

  private <E extends Enum<E>> E one(Class<E> of) {
    E[] all = of.getEnumConstants();
    return all[random.nextInt(all.length)];
  }
}
