package lanemend.exchange;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import lanemend.inventory.DefectKind;
import lanemend.inventory.FindingKind;
import lanemend.measure.UnitSystem;

/**
 * A patrol's waypoints as defects and findings. The note, in the waypoint's name or else in its
 * comment or description, is in this order:
 *
 * <pre>
 * KIND SEVERITY LENGTHxWIDTH[xDEPTH] [ft|m] [LANE] [remark]     pothole high 3x2x4 R1 by the gate
 * KIND [left|right] [remark]                                    fence right wire cut
 * </pre>
 *
 * <p>Sizes are feet, feet and inches, or metres, metres and millimetres; without {@code ft} or
 * {@code m} they are the agency's. Left and right are as driven. Words are those of the defects and
 * findings files, nothing is guessed: what does not begin with one is refused.
 */
public final class PatrolNotes {
  private static final Pattern SIZE =
      Pattern.compile(
          "(\\d[\\d.]*) ?[xX*] ?(\\d[\\d.]*)(?: ?[xX*] ?(\\d[\\d.]*))?(?: ?(ft|m)\\b)?");
  private static final Pattern LANE = Pattern.compile("[RLrl]\\d{1,2}\\b");
  private static final Pattern SIDE = Pattern.compile("(left|right)\\b", Pattern.CASE_INSENSITIVE);
  private static final String WANTED =
      "a note that begins with a kind: "
          + words(DefectKind.values())
          + " (then severity and LENGTHxWIDTHxDEPTH), or "
          + words(FindingKind.values());

  private final List<GpxPoint> waypoints;
  private final List<RowProblem> problems;
  private final UnitSystem units;
  private final String foundBy;
  private final ZoneId zone;
  private final Optional<LocalDate> foundOn;

  /**
   * @param foundBy who patrolled
   * @param zone where, to tell the day from a time
   * @param foundOn the day for waypoints without a time
   */
  public PatrolNotes(
      Read<GpxPoint> waypoints,
      UnitSystem units,
      String foundBy,
      ZoneId zone,
      Optional<LocalDate> foundOn) {
    this.waypoints = waypoints.rows();
    this.problems = waypoints.problems();
    this.units = units;
    this.foundBy = foundBy;
    this.zone = zone;
    this.foundOn = foundOn;
  }

  /**
   * The waypoints that note defects; every waypoint that is neither a defect nor a finding is among
   * the problems here.
   */
  public Read<RawDefect> defects() {
    EventCells events = new EventCells();
    Gather<RawDefect> gather = new Gather<>();
    gather.run(
        rows(n -> n.defect() != null || n.finding() == null, problems),
        FieldMap.NONE,
        cells -> DefectReader.noted(cells, events, today()));
    return gather.read("", EventCells.DERIVED);
  }

  /** The waypoints that note something that is not asphalt. */
  public Read<RawFinding> findings() {
    EventCells events = new EventCells();
    Gather<RawFinding> gather = new Gather<>();
    gather.run(
        rows(n -> n.finding() != null, List.of()),
        FieldMap.NONE,
        cells -> FindingReader.noted(cells, events, today()));
    return gather.read("", EventCells.DERIVED);
  }

  private LocalDate today() {
    return LocalDate.now(zone);
  }

  /** A note taken apart so far as its first word. */
  private record Note(GpxPoint at, DefectKind defect, FindingKind finding, String rest) {}

  private RowSource rows(Predicate<Note> wanted, List<RowProblem> refused) {
    return new RowSource() {
      @Override
      public Optional<List<String>> columns() {
        return Optional.empty();
      }

      @Override
      public void read(Sink sink) {
        refused.forEach(sink::refuse);
        for (GpxPoint w : waypoints) {
          Note note = note(w);
          if (!wanted.test(note)) {
            continue;
          }
          if (note.defect() == null && note.finding() == null) {
            String found = (w.name() + " " + w.text()).strip();
            sink.refuse(w.origin().problem("name", found, WANTED));
          } else {
            sink.row(new Row(w.origin(), cells(note), null, "", ""));
          }
        }
      }
    };
  }

  private static Note note(GpxPoint w) {
    for (String text : List.of(w.name(), w.text())) {
      String line = text.strip().replaceAll("\\s+", " ");
      for (DefectKind kind : DefectKind.values()) {
        String rest = after(line, kind);
        if (rest != null) {
          return new Note(w, kind, null, remark(w, text, rest));
        }
      }
      for (FindingKind kind : FindingKind.values()) {
        String rest = after(line, kind);
        if (rest != null) {
          return new Note(w, null, kind, remark(w, text, rest));
        }
      }
    }
    return new Note(w, null, null, "");
  }

  /** A note in the name may go on in the comment. */
  private static String remark(GpxPoint w, String noted, String rest) {
    boolean more = noted.equals(w.name()) && !w.text().isEmpty() && !w.text().equals(w.name());
    return more ? (rest + " " + w.text()).strip() : rest;
  }

  private static String after(String line, Enum<?> kind) {
    String word = kind.name().toLowerCase(Locale.ROOT);
    String start = line.toLowerCase(Locale.ROOT).replace('-', '_').replace(' ', '_');
    if (!start.startsWith(word)) {
      return null;
    }
    String rest = line.substring(word.length());
    boolean ends = rest.isEmpty() || " ,;:".indexOf(rest.charAt(0)) >= 0;
    return ends ? trimmed(rest) : null;
  }

  private static String trimmed(String text) {
    return text.replaceFirst("^[ ,;:]+", "");
  }

  private Map<String, String> cells(Note note) {
    Map<String, String> cells = new HashMap<>();
    GpxPoint w = note.at();
    cells.put("longitude", Numbers.plain(w.longitude()));
    cells.put("latitude", Numbers.plain(w.latitude()));
    cells.put("found_by", foundBy);
    Instant at = w.at();
    if (at != null) {
      cells.put("found_at", at.toString());
      cells.put("found_on", at.atZone(zone).toLocalDate().toString());
    } else {
      foundOn.ifPresent(day -> cells.put("found_on", day.toString()));
    }
    if (note.defect() == null) {
      cells.put("kind", note.finding().name().toLowerCase(Locale.ROOT));
      cells.put("note", put(cells, "side", SIDE, note.rest()));
      return cells;
    }
    cells.put("kind", note.defect().name().toLowerCase(Locale.ROOT));
    String rest = severity(cells, note.rest());
    rest = size(cells, rest);
    cells.put("note", put(cells, "lane", LANE, rest));
    return cells;
  }

  private static String severity(Map<String, String> cells, String rest) {
    int end = rest.indexOf(' ');
    cells.put("severity", end < 0 ? rest : rest.substring(0, end));
    return end < 0 ? "" : trimmed(rest.substring(end));
  }

  private String size(Map<String, String> cells, String rest) {
    Matcher size = SIZE.matcher(rest);
    if (!size.lookingAt()) {
      return rest;
    }
    boolean metric = size.group(4) == null ? units == UnitSystem.METRIC : size.group(4).equals("m");
    cells.put(metric ? "length_m" : "length_ft", size.group(1));
    cells.put(metric ? "width_m" : "width_ft", size.group(2));
    if (size.group(3) != null) {
      cells.put(metric ? "depth_mm" : "depth_in", size.group(3));
    }
    return trimmed(rest.substring(size.end()));
  }

  private static String put(Map<String, String> cells, String field, Pattern form, String rest) {
    Matcher found = form.matcher(rest);
    if (!found.lookingAt()) {
      return rest;
    }
    cells.put(field, found.group());
    return trimmed(rest.substring(found.end()));
  }

  private static String words(Enum<?>[] values) {
    List<String> words = new ArrayList<>();
    for (Enum<?> e : values) {
      words.add(e.name().toLowerCase(Locale.ROOT));
    }
    return String.join(", ", words);
  }
}
