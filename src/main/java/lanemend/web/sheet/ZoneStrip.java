package lanemend.web.sheet;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import lanemend.crewdays.WorkZone;
import lanemend.inventory.Severity;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.network.CalibrationPost;
import lanemend.network.EquationSide;
import lanemend.network.Lane;
import lanemend.network.Milepost;
import lanemend.network.MilepostLookup;
import lanemend.network.MilepostMap;
import lanemend.network.Side;
import lanemend.web.page.Drawing;
import lanemend.web.page.LabelRoom;
import lanemend.web.page.Wording;
import lanemend.web.page.Xhtml;

/** A zone seen from above, mileposts along it: lanes, repairs, limits, tapers and signs. */
final class ZoneStrip {
  private static final double SMALL = 7.5;
  private static final double PIECE = 27;

  /** From the strokes that end the part to scale to the buffer beside them. */
  private static final double GAP = 7;

  private final Drawing drawing;
  private final StripFrame frame;
  private final WorkZone zone;
  private final int stop;
  private final int before;
  private final Wording wording;
  private final MilepostMap mileposts;
  private final List<Approach> approaches;

  private ZoneStrip(
      Xhtml page,
      WorkZone zone,
      int stop,
      int before,
      List<Approach> approaches,
      SheetContext context) {
    this.frame = StripFrame.of(zone);
    this.zone = zone;
    this.stop = stop;
    this.before = before;
    this.approaches = approaches;
    this.wording = Wording.of(context.agency());
    this.mileposts = Whereabouts.of(context).route(zone.routeId()).mileposts();
    this.drawing =
        new Drawing(
            page, StripFrame.WIDTH, frame.height(), "Strip of " + StopPart.title(stop, before));
  }

  /**
   * One lane closed; of a zone of both sides one of its phases.
   *
   * @param before repairs of the stop done before these
   */
  static void draw(
      Xhtml page,
      WorkZone zone,
      int stop,
      int before,
      List<Approach> approaches,
      SheetContext context) {
    ZoneStrip strip = new ZoneStrip(page, zone, stop, before, approaches, context);
    strip.drawRoad();
    strip.drawClosure();
    strip.drawRepairs();
    strip.drawLimits();
    strip.drawMileposts();
    strip.drawSigns();
    strip.drawing.end();
  }

  private void drawRoad() {
    double top = frame.top();
    double bottom = frame.bottom();
    drawing.rect(0, top, StripFrame.WIDTH, StripFrame.SHOULDER, Drawing.PALE, 0);
    drawing.rect(
        0, bottom - StripFrame.SHOULDER, StripFrame.WIDTH, StripFrame.SHOULDER, Drawing.PALE, 0);
    for (double y :
        new double[] {top, top + StripFrame.SHOULDER, bottom - StripFrame.SHOULDER, bottom}) {
      drawing.line(0, y, StripFrame.WIDTH, y, Drawing.DARK, y == top || y == bottom ? 0.4 : 0.8);
    }
    for (int i = 1; i < frame.leftLanes() + frame.rightLanes(); i++) {
      double y = top + StripFrame.SHOULDER + i * StripFrame.LANE;
      boolean centre = i == frame.leftLanes();
      drawing.dashed(0, y, StripFrame.WIDTH, y, centre ? 1.2 : 0.7, centre ? "9 4" : "4 6");
    }
    boolean oneWay = zone.repairs().get(0).setting().oneDirection();
    for (Side side : Side.values()) {
      for (Lane lane : frame.lanes(side)) {
        double middle = frame.band(lane)[0] + StripFrame.LANE / 2;
        drawing.label(4, middle + 2.8, 8, "start", Drawing.BLACK, lane.code());
        drawing.label(StripFrame.WIDTH - 4, middle + 2.8, 8, "end", Drawing.BLACK, lane.code());
        boolean rightward = oneWay || side == Side.RIGHT;
        drawing.wayArrow(26, middle, rightward, 0.9, 2.6);
        drawing.wayArrow(StripFrame.WIDTH - 26, middle, rightward, 0.9, 2.6);
      }
    }
  }

  /** Taper and buffer in the lane that is closed, where its traffic comes from and goes. */
  private void drawClosure() {
    boolean fromLeft =
        zone.repairs().get(0).setting().oneDirection() || zone.side().first() == Side.RIGHT;
    double left = StripFrame.APPROACH - GAP;
    double right = StripFrame.WIDTH - left;
    double d = fromLeft ? 1 : -1;
    double edge = fromLeft ? left : right;
    double[] band = frame.band(closedLane());
    Optional<Figure> buffer = Approach.length(zone.traffic(), "buffer");
    if (buffer.isPresent()) {
      double from = edge - d * PIECE;
      drawing.rect(Math.min(from, edge), band[0], PIECE, band[1], Drawing.WHITE, 0.7);
      lengthLabel((from + edge) / 2, band, "buffer", buffer.get());
      edge = from;
    }
    double taperEnd = edge;
    Approach.length(zone.traffic(), "taper").ifPresent(f -> wedge(taperEnd, -d, band, "taper", f));
    Approach.length(zone.traffic(), "downstream taper")
        .ifPresent(f -> wedge(fromLeft ? right : left, d, band, "taper", f));
  }

  /**
   * A taper: full width of the lane at {@code full}, nothing a piece further on; it starts at the
   * edge that the traffic is led away from.
   */
  private void wedge(double full, double d, double[] band, String word, Figure length) {
    boolean outermost = closedLane().number() == frame.lanes(zone.side().first()).size();
    boolean right = outermost == (zone.side().first() == Side.RIGHT);
    double outer = right ? band[0] + band[1] : band[0];
    double inner = right ? band[0] : band[0] + band[1];
    double tip = full + d * PIECE;
    drawing.polygon(
        List.of(new double[] {tip, outer}, new double[] {full, outer}, new double[] {full, inner}),
        Drawing.LIGHT,
        0.8);
    lengthLabel((full + tip) / 2, band, word, length);
  }

  /** The outermost lane with a repair in it; the inner ones follow the traffic plan's words. */
  private Lane closedLane() {
    int number =
        zone.repairs().stream()
            .map(r -> r.defect().lane())
            .filter(l -> l.side() == zone.side().first())
            .mapToInt(Lane::number)
            .max()
            .orElse(1);
    return new Lane(zone.side().first(), Math.max(1, number));
  }

  private void lengthLabel(double x, double[] band, String word, Figure length) {
    boolean below = zone.side().first() == Side.RIGHT;
    double y = below ? frame.bottom() + 8.5 : frame.top() - 11.5;
    drawing.line(
        x, below ? frame.bottom() : frame.top(), x, band[0] + band[1] / 2, Drawing.DARK, 0.5);
    drawing.labelOnWhite(x, y, SMALL, "middle", Drawing.BLACK, word);
    drawing.labelOnWhite(
        x, y + 8, SMALL, "middle", Drawing.BLACK, wording.number(length.value(), Unit.METER));
  }

  private void drawRepairs() {
    int count = zone.repairs().size();
    List<double[]> boxes = zone.repairs().stream().map(frame::box).toList();
    for (int row = 0; row < frame.labelRows(); row++) {
      List<Integer> members = new ArrayList<>();
      for (int i = row; i < count; i += frame.labelRows()) {
        members.add(i);
      }
      double[] wanted =
          members.stream().mapToDouble(i -> boxes.get(i)[0] + boxes.get(i)[2] / 2).toArray();
      double[] at =
          LabelRoom.spread(
              wanted, 27, StripFrame.APPROACH + 13, StripFrame.WIDTH - StripFrame.APPROACH - 13);
      for (int k = 0; k < at.length; k++) {
        double[] box = boxes.get(members.get(k));
        double end = frame.labelsAbove() ? box[1] : box[1] + box[3];
        double bend = frame.labelsAbove() ? frame.top() - 2 : frame.bottom() + 2;
        double y = frame.labelY(row);
        double labelEdge = frame.labelsAbove() ? y + 2 : y - 8;
        drawing.line(wanted[k], end, wanted[k], bend, Drawing.DARK, 0.6);
        drawing.line(wanted[k], bend, at[k], labelEdge, Drawing.DARK, 0.6);
        Severity severity = zone.repairs().get(members.get(k)).defect().severity();
        drawing.labelOnWhite(
            at[k],
            y,
            8.5,
            "middle",
            Drawing.BLACK,
            Wording.repairId(stop, before + members.get(k)) + " " + Wording.letter(severity));
      }
    }
    for (int i = 0; i < count; i++) {
      mark(boxes.get(i), zone.repairs().get(i).defect().severity());
    }
  }

  /** Severity without colour: outline, hatched, solid. */
  private void mark(double[] box, Severity severity) {
    double x = box[0];
    double y = box[1];
    double w = box[2];
    double h = box[3];
    drawing.rect(x, y, w, h, severity == Severity.HIGH ? Drawing.BLACK : Drawing.WHITE, 0.9);
    if (severity == Severity.MEDIUM) {
      for (double c = 2.5; c < w + h; c += 2.5) {
        double x1 = Math.max(0, c - h);
        double x2 = Math.min(w, c);
        drawing.line(x + x1, y + c - x1, x + x2, y + c - x2, Drawing.BLACK, 0.6);
      }
    }
  }

  private void drawLimits() {
    double from = frame.x(zone.fromAlongM());
    double to = frame.x(zone.toAlongM());
    for (double x : to - from < 4 ? new double[] {from} : new double[] {from, to}) {
      drawing.dashed(x, frame.top() - 4, x, frame.bottom() + 4, 1.1, "3 2");
    }
    for (double x : new double[] {StripFrame.APPROACH, StripFrame.WIDTH - StripFrame.APPROACH}) {
      drawing.line(x - 3, frame.bottom() + 4, x + 1, frame.top() - 4, Drawing.WHITE, 2.4);
      drawing.line(x - 4.5, frame.bottom() + 4, x - 0.5, frame.top() - 4, Drawing.BLACK, 0.7);
      drawing.line(x - 1.5, frame.bottom() + 4, x + 2.5, frame.top() - 4, Drawing.BLACK, 0.7);
    }
  }

  private void drawMileposts() {
    double y = frame.axisY();
    double d = frame.labelsAbove() ? 1 : -1;
    double textY = frame.labelsAbove() ? y + 12 : y - 6;
    double from = StripFrame.APPROACH + 6;
    double to = StripFrame.WIDTH - StripFrame.APPROACH - 6;
    drawing.line(from, y, to, y, Drawing.BLACK, 0.8);
    LabelRoom room = new LabelRoom(StripFrame.WIDTH, frame.height());
    for (CalibrationPost post : mileposts.posts()) {
      double x = frame.x(post.alongM());
      if (post.alongM() < frame.windowFromM() || post.alongM() > frame.windowToM()) {
        continue;
      }
      String text =
          post.isEquation()
              ? shortMiles(post.backMiles()) + " = " + shortMiles(post.aheadMiles())
              : "post " + shortMiles(post.backMiles());
      drawing.rect(x - 2, y - 4, 4, 8, Drawing.BLACK, 0.5);
      room.take(Drawing.textBox(x, textY, 8, "middle", text));
      drawing.label(x, textY, 8, "middle", Drawing.BLACK, text);
    }
    for (Tick tick : ticks()) {
      double x = frame.x(tick.alongM());
      drawing.line(x, y, x, y + 4 * d, Drawing.BLACK, 0.8);
      if (room.tryTake(Drawing.textBox(x, textY, 8, "middle", tick.text()))) {
        drawing.label(x, textY, 8, "middle", Drawing.BLACK, tick.text());
      }
    }
  }

  private record Tick(double alongM, String text) {}

  /** Round mileposts inside the window, each at every place it occurs. */
  private List<Tick> ticks() {
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (double along : new double[] {frame.windowFromM(), frame.windowToM()}) {
      low = Math.min(low, mileposts.at(along).miles());
      high = Math.max(high, mileposts.at(along).miles());
    }
    for (CalibrationPost post : mileposts.posts()) {
      if (post.alongM() > frame.windowFromM() && post.alongM() < frame.windowToM()) {
        low = Math.min(low, Math.min(post.backMiles(), post.aheadMiles()));
        high = Math.max(high, Math.max(post.backMiles(), post.aheadMiles()));
      }
    }
    double step = RoadMap.roundBelow(Math.max((high - low) / 3, 0.001));
    int decimals = Math.max(0, (int) Math.ceil(-Math.log10(step) - 1e-9));
    List<Tick> ticks = new ArrayList<>();
    for (long i = (long) Math.ceil(low / step - 1e-9); i * step <= high + 1e-9; i++) {
      String text = String.format(Locale.ROOT, "%." + decimals + "f", i * step);
      for (double along : placesOf(i * step)) {
        if (along >= frame.windowFromM() && along <= frame.windowToM()) {
          ticks.add(new Tick(along, text));
        }
      }
    }
    return ticks;
  }

  private List<Double> placesOf(double miles) {
    MilepostLookup found = mileposts.find(new Milepost(miles, EquationSide.ONLY));
    if (found instanceof MilepostLookup.Found one) {
      return List.of(one.alongM());
    }
    if (found instanceof MilepostLookup.Ambiguous several) {
      return several.choices().stream().map(MilepostLookup.Choice::alongM).toList();
    }
    return List.of();
  }

  /** A milepost without needless zeros, for a sign that says {@code 14}. */
  static String shortMiles(double miles) {
    return new java.math.BigDecimal(miles)
        .setScale(3, java.math.RoundingMode.HALF_UP)
        .stripTrailingZeros()
        .toPlainString();
  }

  /**
   * Numbered diamonds on the shoulder side of the traffic that meets them, farthest outermost;
   * those past the work at the other end.
   */
  private void drawSigns() {
    for (Approach approach : approaches) {
      boolean fromLeft = approach.fromLowerAlong();
      boolean below = fromLeft;
      double d = fromLeft ? 1 : -1;
      boolean closureHere = below == (zone.side().first() == Side.RIGHT);
      double run = StripFrame.APPROACH - 20 - (closureHere ? 2 * PIECE + GAP + 6 : 0);
      List<Approach.Sign> ahead = approach.signs().stream().filter(s -> !s.past()).toList();
      double gap = ahead.size() > 1 ? Math.min(26, run / (ahead.size() - 1)) : 0;
      for (int i = 0; i < ahead.size(); i++) {
        double x = (fromLeft ? 11 : StripFrame.WIDTH - 11) + d * i * gap;
        drawSign(ahead.get(i), x, below, gap < 22 && i % 2 == 1);
      }
      List<Approach.Sign> past = approach.signs().stream().filter(Approach.Sign::past).toList();
      for (int i = 0; i < past.size(); i++) {
        double x = (fromLeft ? StripFrame.WIDTH - 11 : 11) - d * i * 26;
        drawSign(past.get(i), x, below, false);
      }
    }
  }

  private void drawSign(Approach.Sign sign, double x, boolean below, boolean lower) {
    double y = below ? frame.bottom() + 11 : frame.top() - 11;
    drawing.polygon(
        List.of(
            new double[] {x, y - 8},
            new double[] {x + 8, y},
            new double[] {x, y + 8},
            new double[] {x - 8, y}),
        Drawing.WHITE,
        0.9);
    drawing.label(x, y + 2.9, 8, "middle", Drawing.BLACK, String.valueOf(sign.number()));
    double shift = lower ? 8 : 0;
    drawing.label(
        x,
        below ? y + 16.5 + shift : y - 10 - shift,
        7.5,
        "middle",
        Drawing.BLACK,
        wording.number(Math.abs(sign.beforeWorkM()), Unit.METER));
  }
}
