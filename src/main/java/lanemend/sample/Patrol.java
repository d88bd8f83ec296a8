package lanemend.sample;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import lanemend.inventory.FindingKind;
import lanemend.measure.Conversion;
import lanemend.network.Lane;
import lanemend.network.Side;
import lanemend.sample.Wear.Cell;

/** What the spring patrols of March and April 2026 wrote down. */
final class Patrol {
  private static final List<FindingKind> FINDINGS =
      List.of(
          FindingKind.FENCE,
          FindingKind.SIGN,
          FindingKind.CULVERT,
          FindingKind.DRAINAGE,
          FindingKind.OTHER);

  static final LocalDate FIRST_DAY = LocalDate.of(2026, 3, 2);
  static final LocalDate LAST_DAY = LocalDate.of(2026, 4, 24);

  /** One defect; a place by milepost, or a point of a phone when {@code milepost} is empty. */
  record DefectRow(
      Roadway road,
      boolean routeNamed,
      double alongM,
      String milepost,
      String milepostTo,
      LonLat point,
      Lane lane,
      Distress distress,
      LocalDate foundOn,
      String foundBy,
      String note) {

    double fromM() {
      return alongM - distress.lengthFt() * Conversion.M_PER_FT / 2;
    }

    double toM() {
      return alongM + distress.lengthFt() * Conversion.M_PER_FT / 2;
    }
  }

  /** One other finding. */
  record FindingRow(
      Roadway road,
      double alongM,
      String milepost,
      LonLat point,
      FindingKind kind,
      Side side,
      LocalDate foundOn,
      String foundBy,
      String note) {}

  private static final double BY_POINT = 0.15;
  private static final double PHONE_SD_M = 3.5;
  private static final double PHONE_MOST_M = 9;
  private static final double ALONE_M = 180;
  private static final double BOTH_ENDS_FT = 300;

  private final List<Roadway> roads;
  private final Dice dice;
  private final Nearby all = new Nearby();
  private final List<LocalDate[]> rounds = new ArrayList<>();
  private final List<String> drivers = new ArrayList<>();

  Patrol(List<Roadway> roads, Roads drawn, Dice dice) {
    this.roads = roads;
    this.dice = dice;
    for (int i = 0; i < roads.size(); i++) {
      all.add(i, roads.get(i).shape().stream().map(LonLat::pt).toList());
      LocalDate first = FIRST_DAY.plusDays(dice.below(19));
      LocalDate second = first.plusDays(21 + dice.below(13));
      rounds.add(new LocalDate[] {weekday(first), weekday(second)});
      drivers.add("Patrol " + (1 + dice.below(3)));
    }
    drawn.built().stream()
        .filter(b -> !b.draft().isRoute())
        .forEach(b -> all.add(-1, b.draft().points()));
  }

  private static LocalDate weekday(LocalDate d) {
    return d.getDayOfWeek() == DayOfWeek.SATURDAY
        ? d.minusDays(1)
        : d.getDayOfWeek() == DayOfWeek.SUNDAY ? d.plusDays(1) : d;
  }

  /** Defects where the road wears: cells by how often they call for repairs now. */
  List<DefectRow> defects(Wear wear, int count) {
    double[] upTo = new double[wear.cells().size()];
    double sum = 0;
    for (int i = 0; i < upTo.length; i++) {
      sum += wear.intensity(wear.cells().get(i), LAST_DAY);
      upTo[i] = sum;
    }
    List<DefectRow> out = new ArrayList<>();
    List<List<DefectRow>> byRoad = new ArrayList<>();
    roads.forEach(r -> byRoad.add(new ArrayList<>()));
    while (out.size() < count) {
      Cell c = wear.cells().get(at(upTo, dice.uniform(0, sum)));
      int no = indexOf(c.section().road());
      Distress distress =
          Distress.draw(roads.get(no), roads.get(no).facts(c.middleM()), c.weak() > 1, dice);
      DefectRow row = defect(no, c, distress);
      if (row != null && byRoad.get(no).stream().noneMatch(other -> overlap(row, other))) {
        out.add(row);
        byRoad.get(no).add(row);
      }
    }
    out.sort(
        Comparator.comparing(DefectRow::foundOn)
            .thenComparing(d -> indexOf(d.road()))
            .thenComparing(DefectRow::alongM));
    return out;
  }

  private int indexOf(Roadway road) {
    for (int i = 0; i < roads.size(); i++) {
      if (roads.get(i).id().equals(road.id())) {
        return i;
      }
    }
    throw new IllegalArgumentException(road.id());
  }

  private static int at(double[] upTo, double value) {
    int i = java.util.Arrays.binarySearch(upTo, value);
    return StrictMath.min(upTo.length - 1, i < 0 ? -i - 1 : i);
  }

  private static boolean overlap(DefectRow a, DefectRow b) {
    return a.lane().equals(b.lane()) && a.fromM() < b.toM() && b.fromM() < a.toM();
  }

  private DefectRow defect(int no, Cell c, Distress distress) {
    Roadway road = roads.get(no);
    double half = distress.lengthFt() * Conversion.M_PER_FT / 2 + 3;
    double along = dice.uniform(c.fromM(), c.toM());
    if (along < half || along > road.lengthM() - half) {
      return null;
    }
    LocalDate day = rounds.get(no)[dice.below(2)];
    String note = note(distress);
    if (dice.chance(BY_POINT)) {
      double right = road.rightOf(c.lane(), along);
      LonLat point = LonLat.of(road.pointAt(along, right).plus(phone(), phone()));
      boolean named = dice.chance(0.75) || !alone(point.pt(), no);
      return new DefectRow(
          road, named, along, "", "", point, c.lane(), distress, day, drivers.get(no), note);
    }
    boolean ends = distress.lengthFt() >= BOTH_ENDS_FT;
    Roadway.Written first = road.write(ends ? along - half + 3 : along);
    Roadway.Written last = ends ? road.write(along + half - 3) : first;
    return new DefectRow(
        road,
        true,
        (first.alongM() + last.alongM()) / 2,
        first.text(),
        ends ? last.text() : "",
        null,
        c.lane(),
        distress,
        day,
        drivers.get(no),
        note);
  }

  /** Error of a phone's position. */
  private double phone() {
    return dice.normalWithin(0, PHONE_SD_M, -PHONE_MOST_M, PHONE_MOST_M);
  }

  /** True when no other road is near enough to be taken for this one. */
  private boolean alone(Pt p, int no) {
    return all.around(p, p, ALONE_M).stream().allMatch(s -> s.road() == no);
  }

  private String note(Distress d) {
    if (!dice.chance(0.22)) {
      return "";
    }
    return switch (d.kind()) {
      case POTHOLE ->
          dice.pick(List.of("hard to see at night", "filled once, came out", "wet base"));
      case ALLIGATOR_CRACKING ->
          dice.pick(List.of("pumping fines", "soft underfoot, water stands here", "growing"));
      case RUTTING, DEPRESSION -> dice.pick(List.of("holds water", "at the foot of the grade"));
      case SHOVING -> "at the stop line, trucks braking";
      case EDGE_BREAK -> dice.pick(List.of("shoulder washed out", "trucks cut the corner"));
      default -> "";
    };
  }

  /** Fences, signs, culverts and drains by the road. */
  List<FindingRow> findings(int count) {
    double[] upTo = new double[roads.size()];
    double sum = 0;
    for (int i = 0; i < upTo.length; i++) {
      sum += roads.get(i).lengthM();
      upTo[i] = sum;
    }
    List<FindingRow> out = new ArrayList<>();
    for (int k = 0; k < count; k++) {
      int no = at(upTo, dice.uniform(0, sum));
      Roadway road = roads.get(no);
      double along = dice.uniform(10, road.lengthM() - 10);
      FindingKind kind = FINDINGS.get(dice.pick(0.24, 0.34, 0.2, 0.18, 0.04));
      Side side = dice.chance(0.6) ? Side.RIGHT : Side.LEFT;
      LocalDate day = rounds.get(no)[dice.below(2)];
      boolean byPoint = dice.chance(0.2);
      double right = (side == Side.RIGHT ? 1 : -1) * dice.uniform(7, 11);
      LonLat point = byPoint ? LonLat.of(road.pointAt(along, right)) : null;
      Roadway.Written written = byPoint ? null : road.write(along);
      out.add(
          new FindingRow(
              road,
              byPoint ? along : written.alongM(),
              byPoint ? "" : written.text(),
              point,
              kind,
              side,
              day,
              drivers.get(no),
              remark(kind)));
    }
    out.sort(
        Comparator.comparing(FindingRow::foundOn)
            .thenComparing(f -> indexOf(f.road()))
            .thenComparing(FindingRow::alongM));
    return out;
  }

  private String remark(FindingKind kind) {
    return switch (kind) {
      case FENCE -> dice.pick(List.of("two posts down", "wire cut", "leaning onto the shoulder"));
      case SIGN -> dice.pick(List.of("bent", "faded, hard to read at night", "missing", "turned"));
      case CULVERT -> dice.pick(List.of("inlet blocked", "end section crushed", "bank eroding"));
      case DRAINAGE -> dice.pick(List.of("ditch silted up", "water over the shoulder after rain"));
      case OTHER -> dice.pick(List.of("dead animal", "tree limb near the lane"));
    };
  }
}
