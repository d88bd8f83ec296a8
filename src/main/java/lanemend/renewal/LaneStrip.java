package lanemend.renewal;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import lanemend.network.Lane;
import lanemend.network.Side;
import lanemend.renewal.SectionHistory.Place;
import lanemend.renewal.exposure.Cell;
import lanemend.renewal.exposure.CellHistories;
import lanemend.renewal.exposure.ExposureSettings;

/**
 * Repairs of a stretch by year, lane and place, with what the records do not cover: for an engineer
 * to see where and in which lane a road fails.
 *
 * @param firstYear calendar year of the first row
 * @param lanes from the leftmost to the rightmost, facing growing along
 * @param places columns, in order
 * @param marks by year, lane and place; null where a lane has no cell
 */
public record LaneStrip(int firstYear, List<Lane> lanes, List<Place> places, Mark[][][] marks) {

  /**
   * One lane of one place in one year.
   *
   * @param repairs counted
   * @param watched false where no records or no known surface: repairs there are not counted
   * @param surfaced a new surface was laid in the year
   */
  public record Mark(int repairs, boolean watched, boolean surfaced) {}

  public LaneStrip {
    lanes = List.copyOf(lanes);
    places = List.copyOf(places);
  }

  public int years() {
    return marks.length;
  }

  /** Repairs of a place over all years and lanes. */
  public int repairsAt(int place) {
    int sum = 0;
    for (Mark[][] year : marks) {
      for (Mark[] lane : year) {
        sum += lane[place] == null ? 0 : lane[place].repairs();
      }
    }
    return sum;
  }

  /** The strip of these cells of one route between two days, the second not included. */
  public static LaneStrip of(CellHistories h, int[] cells, LocalDate from, LocalDate to) {
    TreeSet<Lane> found = new TreeSet<>(LaneStrip::leftToRight);
    Map<Integer, Integer> columns = new LinkedHashMap<>();
    List<Place> places = new ArrayList<>();
    for (int i : cells) {
      Cell c = h.cell(i);
      found.add(lane(c));
      if (columns.putIfAbsent(c.number(), places.size()) == null) {
        places.add(new Place(c.fromAlongM(), c.toAlongM()));
      }
    }
    List<Lane> lanes = List.copyOf(found);
    int first = from.getYear();
    int years = to.minusDays(1).getYear() - first + 1;
    Mark[][][] marks = new Mark[years][lanes.size()][places.size()];
    for (int i : cells) {
      int[] repairs = new int[years];
      for (int r = h.firstRepair(i); r < h.firstRepair(i + 1); r++) {
        repairs[LocalDate.ofEpochDay(h.repairDay(r)).getYear() - first]++;
      }
      for (int y = 0; y < years; y++) {
        marks[y][lanes.indexOf(lane(h.cell(i)))][columns.get(h.cell(i).number())] =
            mark(h, i, first + y, to, repairs[y]);
      }
    }
    return new LaneStrip(first, lanes, places, marks);
  }

  /** Spells follow one another without a hole and the last ends with the records. */
  private static Mark mark(CellHistories h, int i, int year, LocalDate recordsTo, int repairs) {
    double yearFrom = LocalDate.of(year, 1, 1).toEpochDay();
    double yearTo = LocalDate.of(year + 1, 1, 1).toEpochDay();
    double end = recordsTo.toEpochDay();
    boolean watched = false;
    boolean surfaced = false;
    for (int s = h.firstSpell(i + 1) - 1; s >= h.firstSpell(i); s--) {
      double start = end - (h.toAge(s) - h.fromAge(s)) * ExposureSettings.DAYS_PER_YEAR;
      // Half a day of grace: ages are fractions of a mean year.
      watched |= Math.min(end, yearTo) - Math.max(start, yearFrom) > 0.5;
      surfaced |= h.fromAge(s) == 0 && start >= yearFrom - 0.5 && start < yearTo - 0.5;
      end = start;
    }
    return new Mark(repairs, watched, surfaced);
  }

  private static Lane lane(Cell c) {
    return Lane.parse(c.lane()).orElseThrow();
  }

  private static int leftToRight(Lane a, Lane b) {
    return Integer.compare(place(a), place(b));
  }

  private static int place(Lane lane) {
    return lane.side() == Side.LEFT ? -lane.number() : lane.number();
  }
}
