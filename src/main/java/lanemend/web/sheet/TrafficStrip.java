package lanemend.web.sheet;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import lanemend.crewdays.SideRoadInZone;
import lanemend.crewdays.WorkZone;
import lanemend.crewdays.ZoneAxis;
import lanemend.measure.Unit;
import lanemend.network.Lane;
import lanemend.network.Route;
import lanemend.network.Side;
import lanemend.patching.traffic.Layout;
import lanemend.patching.traffic.Station;
import lanemend.patching.traffic.Stretch;
import lanemend.web.page.Drawing;
import lanemend.web.page.LabelRoom;
import lanemend.web.page.Wording;
import lanemend.web.page.Xhtml;

/**
 * The traffic control of a zone seen from above and to scale along the road: both directions,
 * tapers, buffer, work, devices, people and boards, and each sign with its designation, distance
 * and milepost.
 */
final class TrafficStrip {
  private static final double WIDTH = 534;
  private static final double INSET = 20;
  private static final double LANE = 12;
  private static final double SHOULDER = 6;
  private static final double TOP = 66;
  private static final double BELOW = 78;
  private static final double TEXT = 6.5;
  private static final double COLUMN = 39;

  /** Share of the closure kept free at both ends, for those who stand there. */
  private static final double MARGIN = 0.06;

  /** Closer than this the devices run together and a row of dots would lie. */
  private static final double LEAST_DOT = 2.4;

  private final Drawing drawing;
  private final WorkZone zone;
  private final Layout layout;
  private final ZoneAxis axis;
  private final List<Approach> approaches;
  private final Wording wording;
  private final Route route;
  private final TrafficScale scale;
  private final int leftLanes;
  private final int lanes;

  private TrafficStrip(
      Xhtml page, WorkZone zone, List<Approach> approaches, SheetContext context, String title) {
    this.zone = zone;
    this.layout = zone.traffic().layout();
    this.axis = ZoneAxis.of(zone);
    this.approaches = approaches;
    this.wording = Wording.of(context.agency());
    this.route = Whereabouts.of(context).route(zone.routeId());
    StripFrame frame = StripFrame.of(zone);
    this.leftLanes = frame.leftLanes();
    this.lanes = frame.leftLanes() + frame.rightLanes();
    this.drawing = new Drawing(page, WIDTH, TOP + road() + BELOW, title);
    double[] closure = closure();
    double margin = Math.max(2, MARGIN * (closure[1] - closure[0]));
    closure[0] -= margin;
    closure[1] += margin;
    double[] all =
        Stream.concat(
                Stream.of(closure[0], closure[1]),
                approaches.stream().flatMap(a -> a.signs().stream()).map(Approach.Sign::alongM))
            .mapToDouble(Double::doubleValue)
            .sorted()
            .toArray();
    this.scale =
        new TrafficScale(all[0], closure[0], closure[1], all[all.length - 1], INSET, WIDTH - INSET);
  }

  /** One lane closed; of a zone of both sides one of its phases. */
  static void draw(
      Xhtml page, WorkZone zone, String stop, List<Approach> approaches, SheetContext context) {
    TrafficStrip strip =
        new TrafficStrip(page, zone, approaches, context, "Traffic control of " + stop);
    strip.drawRoad();
    strip.drawSideRoads(SideRoadPart.of(zone, context));
    strip.drawStretches();
    strip.scale.draw(strip.drawing, strip.wording, TOP, strip.bottom(), strip.bottom() + BELOW - 6);
    strip.drawStations();
    strip.drawSigns();
    strip.drawing.end();
  }

  /** From the first taper to the end of the last, low along first. */
  private double[] closure() {
    double from = layout.stretches().stream().mapToDouble(Stretch::fromM).min().orElse(0);
    double a = axis.alongM(from);
    double b = axis.alongM(layout.closureM());
    return new double[] {Math.min(a, b), Math.max(a, b)};
  }

  private double road() {
    return 2 * SHOULDER + lanes * LANE;
  }

  private double bottom() {
    return TOP + road();
  }

  private void drawRoad() {
    drawing.rect(0, TOP, WIDTH, SHOULDER, Drawing.PALE, 0);
    drawing.rect(0, bottom() - SHOULDER, WIDTH, SHOULDER, Drawing.PALE, 0);
    for (double y : new double[] {TOP, TOP + SHOULDER, bottom() - SHOULDER, bottom()}) {
      drawing.line(0, y, WIDTH, y, Drawing.DARK, y == TOP || y == bottom() ? 0.4 : 0.8);
    }
    for (int i = 1; i < lanes; i++) {
      double y = TOP + SHOULDER + i * LANE;
      boolean centre = i == leftLanes;
      drawing.dashed(0, y, WIDTH, y, centre ? 1.2 : 0.7, centre ? "9 4" : "4 6");
    }
    boolean oneWay = zone.repairs().get(0).setting().oneDirection();
    for (int i = 0; i < lanes; i++) {
      double middle = TOP + SHOULDER + (i + 0.5) * LANE;
      boolean rightward = oneWay || i >= leftLanes;
      drawing.wayArrow(10, middle, rightward, 0.8, 2.2);
      drawing.wayArrow(WIDTH - 10, middle, rightward, 0.8, 2.2);
    }
  }

  /** Mouths of side roads: a gap in the road's edge, and a stub. */
  private void drawSideRoads(List<SideRoadInZone> roads) {
    for (SideRoadInZone open : roads) {
      double x = scale.x(open.road().alongM());
      if (open.road().left()) {
        mouth(x, TOP, TOP - 8);
      }
      if (open.road().right()) {
        mouth(x, bottom(), bottom() + 8);
      }
    }
  }

  private void mouth(double x, double edge, double end) {
    drawing.rect(x - 3, Math.min(edge, end), 6, Math.abs(end - edge), Drawing.WHITE, 0);
    drawing.line(x - 3, edge, x + 3, edge, Drawing.WHITE, 1.2);
    drawing.line(x - 3, edge, x - 3, end, Drawing.DARK, 0.7);
    drawing.line(x + 3, edge, x + 3, end, Drawing.DARK, 0.7);
  }

  /** Top and height of the closed lane, or of the shoulder worked on. */
  private double[] band() {
    int number =
        zone.repairs().stream()
            .map(r -> r.defect().lane())
            .filter(l -> l.side() == zone.side().first())
            .mapToInt(Lane::number)
            .max()
            .orElse(1);
    boolean right = zone.side().first() == Side.RIGHT;
    boolean shoulder =
        number == 0
            && layout.stretches().stream().noneMatch(s -> s.kind() == Stretch.Kind.ONE_LANE_TAPER);
    if (shoulder) {
      return new double[] {right ? bottom() - SHOULDER : TOP, SHOULDER};
    }
    int counted = Math.max(1, number);
    int fromTop = right ? leftLanes + counted - 1 : leftLanes - counted;
    int index = Math.max(0, Math.min(lanes - 1, fromTop));
    return new double[] {TOP + SHOULDER + index * LANE, LANE};
  }

  private void drawStretches() {
    double[] band = band();
    boolean edgeBelow = zone.side().first() == Side.RIGHT;
    double outer = edgeBelow ? band[0] + band[1] : band[0];
    double inner = edgeBelow ? band[0] : band[0] + band[1];
    List<double[]> middles = new ArrayList<>();
    List<Stretch> named = new ArrayList<>();
    for (Stretch s : layout.stretches()) {
      double start = scale.x(axis.alongM(s.fromM()));
      double end = scale.x(axis.alongM(s.toM()));
      double left = Math.min(start, end);
      double width = Math.abs(end - start);
      switch (s.kind()) {
        case BUFFER, TANGENT -> drawing.rect(left, band[0], width, band[1], Drawing.WHITE, 0.7);
        case WORK -> work(left, Math.max(2, width), band);
        case DOWNSTREAM_TAPER -> wedge(end, start, outer, inner);
        case SHIFTING_TAPER ->
            wedge(s.fromM() < 1e-9 ? start : end, s.fromM() < 1e-9 ? end : start, outer, inner);
        case SHOULDER_TAPER ->
            wedge(
                start,
                end,
                edgeBelow ? bottom() : TOP,
                edgeBelow ? bottom() - SHOULDER : TOP + SHOULDER);
        default -> wedge(start, end, outer, inner);
      }
      dots(s, start, end, inner, outer);
      middles.add(new double[] {(start + end) / 2});
      named.add(s);
    }
    labels(named, middles, edgeBelow);
  }

  /** Nothing at {@code tip}, the whole lane at {@code full}. */
  private void wedge(double tip, double full, double outer, double inner) {
    drawing.polygon(
        List.of(new double[] {tip, outer}, new double[] {full, outer}, new double[] {full, inner}),
        Drawing.LIGHT,
        0.7);
  }

  private void work(double x, double width, double[] band) {
    drawing.rect(x, band[0], width, band[1], Drawing.WHITE, 0.9);
    for (double c = 3; c < width + band[1]; c += 3) {
      double from = Math.max(0, c - band[1]);
      double to = Math.min(width, c);
      drawing.line(x + from, band[0] + c - from, x + to, band[0] + c - to, Drawing.BLACK, 0.6);
    }
  }

  /** Devices at their spacing, along the edge the open lane has. */
  private void dots(Stretch s, double start, double end, double inner, double outer) {
    if (!(s.spacingM() > 0)) {
      return;
    }
    int gaps = (int) Math.max(1, Math.ceil(s.lengthM() / s.spacingM() - 1e-9));
    double step = Math.abs(end - start) / gaps;
    int every = (int) Math.max(1, Math.ceil(LEAST_DOT / step));
    boolean slanted = s.kind() != Stretch.Kind.BUFFER && s.kind() != Stretch.Kind.WORK;
    boolean back =
        s.kind() == Stretch.Kind.DOWNSTREAM_TAPER
            || (s.kind() == Stretch.Kind.SHIFTING_TAPER && s.fromM() > 1e-9);
    if (s.kind() == Stretch.Kind.SHOULDER_TAPER || s.kind() == Stretch.Kind.TANGENT) {
      slanted = s.kind() == Stretch.Kind.SHOULDER_TAPER;
    }
    for (int i = 0; i <= gaps; i += every) {
      double share = (double) i / gaps;
      double across = !slanted ? 1 : back ? 1 - share : share;
      double y =
          s.kind() == Stretch.Kind.SHOULDER_TAPER
              ? shoulderY(across)
              : outer + (inner - outer) * across;
      drawing.circle(start + (end - start) * share, y, 0.9, Drawing.BLACK, 0.1);
    }
  }

  private double shoulderY(double across) {
    boolean below = zone.side().first() == Side.RIGHT;
    return below ? bottom() - SHOULDER * across : TOP + SHOULDER * across;
  }

  /** Names and lengths in two rows on the far side of the road, each by a line to its stretch. */
  private void labels(List<Stretch> named, List<double[]> middles, boolean edgeBelow) {
    List<Integer> order = new ArrayList<>();
    for (int i = 0; i < named.size(); i++) {
      order.add(i);
    }
    order.sort(Comparator.comparingDouble(i -> middles.get(i)[0]));
    double[] wanted = order.stream().mapToDouble(i -> middles.get(i)[0]).toArray();
    double[] at = LabelRoom.spread(wanted, 52, 30, WIDTH - 30);
    double[] band = band();
    for (int k = 0; k < at.length; k++) {
      Stretch s = named.get(order.get(k));
      double base = edgeBelow ? bottom() + 49 : TOP - 55;
      double tip = edgeBelow ? bottom() + 42 : TOP - 45;
      drawing.line(
          wanted[k],
          band[0] + band[1] / 2,
          wanted[k],
          edgeBelow ? bottom() + 20 : TOP - 20,
          Drawing.DARK,
          0.4);
      drawing.line(wanted[k], edgeBelow ? bottom() + 20 : TOP - 20, at[k], tip, Drawing.DARK, 0.4);
      drawing.labelOnWhite(at[k], base, TEXT, "middle", Drawing.BLACK, shortWords(s.kind()));
      drawing.labelOnWhite(
          at[k], base + 7.5, TEXT, "middle", Drawing.BLACK, wording.text(s.lengthM(), Unit.METER));
    }
  }

  private static String shortWords(Stretch.Kind kind) {
    return switch (kind) {
      case ONE_LANE_TAPER -> "one-lane taper";
      case DOWNSTREAM_TAPER -> "downstream t.";
      case SHIFTING_TAPER, MERGING_TAPER, SHOULDER_TAPER, TANGENT, BUFFER, WORK -> kind.words();
    };
  }

  /** Letters: F flagger, T signal, A arrow board, S shadow vehicle, B barricades. */
  private void drawStations() {
    double[] band = band();
    for (Station station : layout.stations()) {
      double x = scale.x(axis.alongM(station.atM()));
      boolean withRight = axis.withAlong() != station.facesOthers();
      double y = withRight ? bottom() - SHOULDER / 2 : TOP + SHOULDER / 2;
      if (station.kind() == Station.Kind.SHADOW_VEHICLE) {
        y = band[0] + band[1] / 2;
      } else if (station.kind() == Station.Kind.ARROW_BOARD) {
        y = besideTaper(band);
      }
      drawing.rect(x - 4, y - 4, 8, 8, Drawing.WHITE, 1);
      drawing.label(x, y + 2.4, TEXT, "middle", Drawing.BLACK, letter(station.kind()));
    }
  }

  /** On the shoulder of the closed lane, or in the lane where another lies between. */
  private double besideTaper(double[] band) {
    boolean right = zone.side().first() == Side.RIGHT;
    boolean atShoulder =
        right
            ? Math.abs(band[0] + band[1] - (bottom() - SHOULDER)) < 1
            : Math.abs(band[0] - (TOP + SHOULDER)) < 1;
    if (!atShoulder) {
      return band[0] + band[1] / 2;
    }
    return right ? bottom() - SHOULDER / 2 : TOP + SHOULDER / 2;
  }

  static String letter(Station.Kind kind) {
    return switch (kind) {
      case FLAGGER -> "F";
      case SIGNAL -> "T";
      case ARROW_BOARD -> "A";
      case SHADOW_VEHICLE -> "S";
      case BARRICADES -> "B";
    };
  }

  private void drawSigns() {
    for (Approach approach : approaches) {
      boolean below = approach.fromLowerAlong();
      List<Approach.Sign> signs =
          approach.signs().stream()
              .sorted(Comparator.comparingDouble(Approach.Sign::alongM))
              .toList();
      double[] wanted = signs.stream().mapToDouble(s -> scale.x(s.alongM())).toArray();
      // Labels of stretches stand in the middle: signs keep to the sides they are on.
      double[] at = sides(wanted);
      for (int i = 0; i < signs.size(); i++) {
        drawSign(signs.get(i), wanted[i], at[i], below);
      }
    }
  }

  private static double[] sides(double[] wanted) {
    int left = (int) java.util.Arrays.stream(wanted).filter(x -> x < WIDTH / 2).count();
    double[] a = java.util.Arrays.copyOfRange(wanted, 0, left);
    double[] b = java.util.Arrays.copyOfRange(wanted, left, wanted.length);
    double[] out = new double[wanted.length];
    double edge = COLUMN / 2;
    double[] low = LabelRoom.spread(a, COLUMN, edge, WIDTH / 2 - edge);
    double[] high = LabelRoom.spread(b, COLUMN, WIDTH / 2 + edge, WIDTH - edge);
    System.arraycopy(low, 0, out, 0, low.length);
    System.arraycopy(high, 0, out, low.length, high.length);
    return out;
  }

  private void drawSign(Approach.Sign sign, double x, double labelX, boolean below) {
    double edge = below ? bottom() : TOP;
    double d = below ? 1 : -1;
    double y = edge + d * 13;
    drawing.line(x, edge, x, edge + d * 3, Drawing.BLACK, 0.8);
    drawing.line(x, edge + d * 3, labelX, y - d * 6, Drawing.BLACK, 0.6);
    drawing.polygon(
        List.of(
            new double[] {labelX, y - 6.5},
            new double[] {labelX + 6.5, y},
            new double[] {labelX, y + 6.5},
            new double[] {labelX - 6.5, y}),
        Drawing.WHITE,
        0.9);
    drawing.label(labelX, y + 2.4, TEXT, "middle", Drawing.BLACK, String.valueOf(sign.number()));
    String[] lines = {
      sign.sign().code(),
      wording.text(Math.abs(sign.beforeWorkM()), Unit.METER) + (sign.past() ? " past" : ""),
      milepost(sign.alongM())
    };
    for (int i = 0; i < lines.length; i++) {
      double at = below ? y + 14 + 7 * i : y - 24 + 7 * i;
      drawing.labelOnWhite(labelX, at, TEXT, "middle", Drawing.BLACK, lines[i]);
    }
  }

  /** Milepost of a sign, or that the road is at its end there. */
  private String milepost(double alongM) {
    return alongM < 0 || alongM > route.lengthM()
        ? "off the route"
        : "MP " + route.mileposts().at(alongM).text();
  }
}
