package lanemend.sample;

import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.function.Function;
import lanemend.sample.Roadway.Span;
import lanemend.sample.Surfacing.Section;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;

/** The CSV files of a county. */
final class Tables {
  private static final CSVFormat CSV = CSVFormat.RFC4180.builder().setRecordSeparator('\n').get();

  private final County county;
  private final Path folder;

  private Tables(County county, Path folder) {
    this.county = county;
    this.folder = folder;
  }

  static void write(County county, Path folder) throws IOException {
    Tables t = new Tables(county, folder);
    t.posts();
    t.attributes();
    t.defects();
    t.findings();
    t.patches();
    t.forecast();
  }

  /** Writes the rows of one file. */
  private interface Rows {
    void print(CSVPrinter out) throws IOException;
  }

  private void file(String name, String header, Rows rows) throws IOException {
    try (Writer writer = Files.newBufferedWriter(folder.resolve(name), StandardCharsets.UTF_8);
        CSVPrinter out = new CSVPrinter(writer, CSV)) {
      out.printRecord((Object[]) header.split(",", -1));
      rows.print(out);
    }
  }

  /** Ten invented days: fair, one wet spell, one cold morning after it. */
  private void forecast() throws IOException {
    LocalDate first = LocalDate.parse(AgencyFacts.FIRST_DAY);
    String[] days = {
      "0.05,0,44,69,8", "0.1,0,46,71,6", "0.2,0,47,68,12", "0.75,0.4,45,58,18", "0.45,0.1,38,49,20",
      "0.15,0,36,61,10", "0.05,0,41,66,7", "0.1,0,43,70,9", "0.3,0.05,47,67,14", "0.2,0,45,65,11"
    };
    file(
        "forecast.csv",
        "date,rain_probability,rain_in,min_temperature_f,max_temperature_f,wind_mph",
        out -> {
          for (int i = 0; i < days.length; i++) {
            out.printRecord(List.of((first.plusDays(i) + "," + days[i]).split(",", -1)));
          }
        });
  }

  private void posts() throws IOException {
    file(
        "posts.csv",
        "route,direction,milepost,ahead,longitude,latitude,distance_ft",
        out -> {
          for (Posts.Row r : county.posts()) {
            out.printRecord(
                r.road().name(),
                r.road().direction(),
                Posts.text(r.post().backMiles()),
                r.post().isEquation() ? Posts.text(r.post().aheadMiles()) : "",
                r.place() == null ? "" : degrees(r.place().lon()),
                r.place() == null ? "" : degrees(r.place().lat()),
                r.place() == null ? number(r.distanceFt(), 2) : "");
          }
        });
  }

  private void attributes() throws IOException {
    file(
        "attributes.csv",
        "route,direction,milepost_from,milepost_to,name,value,valid_from,valid_to",
        out -> {
          for (int i = 0; i < county.roads().size(); i++) {
            Roadway r = county.roads().get(i);
            LocalDate counted = LocalDate.of(2025, 1, 1);
            fact(out, r, "aadt", counted, f -> Integer.toString(f.aadt()));
            fact(out, r, "truck_share", counted, f -> number(f.truckShare(), 2));
            fact(out, r, "urban", null, f -> f.urban() ? "yes" : "no");
            fact(out, r, "base", null, RoadFacts::base);
            for (Section s : county.sections().get(i)) {
              String year = Integer.toString(s.lastLaid().getYear());
              attribute(out, r, s.fromM(), s.toM(), "last_surfacing", year, s.lastLaid());
            }
          }
        });
  }

  /** One fact of a route, neighbouring stretches with the same value as one row. */
  private static void fact(
      CSVPrinter out, Roadway r, String name, LocalDate from, Function<RoadFacts, String> value)
      throws IOException {
    List<Span> spans = r.spans();
    double start = 0;
    for (int i = 0; i < spans.size(); i++) {
      String here = value.apply(spans.get(i).facts());
      boolean last = i + 1 == spans.size();
      if (last || !here.equals(value.apply(spans.get(i + 1).facts()))) {
        attribute(out, r, start, spans.get(i).toM(), name, here, from);
        start = spans.get(i).toM();
      }
    }
  }

  private static void attribute(
      CSVPrinter out,
      Roadway r,
      double fromM,
      double toM,
      String name,
      String value,
      LocalDate validFrom)
      throws IOException {
    out.printRecord(
        r.name(),
        r.direction(),
        r.write(fromM).text(),
        r.write(toM).text(),
        name,
        value,
        Objects.toString(validFrom, ""),
        "");
  }

  private void defects() throws IOException {
    file(
        "defects.csv",
        "id,route,direction,milepost,milepost_to,longitude,latitude,lane,kind,severity,length_ft,"
            + "width_ft,depth_in,found_on,found_by,status,note",
        out -> {
          int no = 0;
          for (Patrol.DefectRow d : county.defects()) {
            out.printRecord(
                String.format(Locale.ROOT, "D-%05d", ++no),
                d.routeNamed() ? d.road().name() : "",
                d.routeNamed() ? d.road().direction() : "",
                d.milepost(),
                d.milepostTo(),
                d.point() == null ? "" : degrees(d.point().lon()),
                d.point() == null ? "" : degrees(d.point().lat()),
                d.lane().code(),
                d.distress().kind().name().toLowerCase(Locale.ROOT),
                d.distress().severity().name().toLowerCase(Locale.ROOT),
                number(d.distress().lengthFt(), 1),
                number(d.distress().widthFt(), 1),
                number(d.distress().depthIn(), 2),
                d.foundOn(),
                d.foundBy(),
                "open",
                d.note());
          }
        });
  }

  private void findings() throws IOException {
    file(
        "findings.csv",
        "id,kind,route,direction,milepost,longitude,latitude,side,found_on,found_by,note",
        out -> {
          int no = 0;
          for (Patrol.FindingRow f : county.findings()) {
            out.printRecord(
                String.format(Locale.ROOT, "F-%04d", ++no),
                f.kind().name().toLowerCase(Locale.ROOT),
                f.road().name(),
                f.road().direction(),
                f.milepost(),
                f.point() == null ? "" : degrees(f.point().lon()),
                f.point() == null ? "" : degrees(f.point().lat()),
                f.side().name().toLowerCase(Locale.ROOT),
                f.foundOn(),
                f.foundBy(),
                f.note());
          }
        });
  }

  private void patches() throws IOException {
    file(
        "patches.csv",
        "id,work,route,direction,milepost,milepost_to,lane,done_on,tons,crew_hours,cost,crew,"
            + "planned_on,planned_tons,planned_hours,crew_hour_cost,mix_price_per_ton",
        out -> {
          int no = 0;
          PlannedThen then = new PlannedThen(county.seed(), county.size().districts());
          for (History.Row p : county.history()) {
            PlannedThen.Plan plan = then.of(p);
            out.printRecord(
                String.format(Locale.ROOT, "P-%06d", ++no),
                p.work(),
                p.road().name(),
                p.road().direction(),
                p.milepost(),
                p.milepostTo(),
                p.lane(),
                p.doneOn(),
                number(p.tons(), 2),
                number(p.crewHours(), 1),
                String.format(Locale.ROOT, "%.2f", p.cost()),
                plan == null ? "" : plan.crew(),
                plan == null ? "" : plan.on(),
                plan == null ? "" : number(plan.tons(), 2),
                plan == null ? "" : number(plan.hours(), 2),
                plan == null ? "" : number(PlannedThen.HOUR_COST, 2),
                plan == null ? "" : number(PlannedThen.MIX_PRICE, 2));
          }
        });
  }

  private static String degrees(double v) {
    return String.format(Locale.ROOT, "%.7f", v);
  }

  /** A number without trailing zeros. */
  private static String number(double v, int decimals) {
    String s = String.format(Locale.ROOT, "%." + decimals + "f", v);
    return s.contains(".") ? s.replaceAll("0+$", "").replaceAll("\\.$", "") : s;
  }
}
