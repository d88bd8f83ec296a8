package lanemend.exchange;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import lanemend.patching.AgencyTraffic;
import lanemend.patching.RoadSign;
import lanemend.patching.traffic.Situation;

/**
 * The agency's own forms of the typical situations of traffic control, {@code
 * patching.traffic.agency} of the agency file, and back: by the name of the situation in lower case
 * {@code used}, {@code signs} and {@code signs_other_way} in the order a driver meets them, {@code
 * arrow_board}, {@code attenuator}, {@code note}; and {@code hour_shares} of a day's traffic.
 */
final class AgencyTrafficJson {
  private static final int HOURS = 24;

  /** A designation of the MUTCD; {@code {side}} is L or R as the closed lane lies. */
  private static final Pattern CODE =
      Pattern.compile("[A-Z]{1,3}[0-9]{1,2}-[0-9]{1,3}[a-z]?P?(L|R|\\{side\\})?");

  private AgencyTrafficJson() {}

  static AgencyTraffic read(JsonFields f) {
    Map<String, AgencyTraffic.Own> situations = new LinkedHashMap<>();
    if (f.has("situations")) {
      JsonFields all = f.object("situations");
      for (Situation situation : Situation.values()) {
        if (all.has(situation.key())) {
          JsonFields one = all.object(situation.key());
          situations.put(situation.key(), own(one));
          one.done();
        }
      }
      all.done();
    }
    List<Double> hours = hours(f);
    f.done();
    return f.problems().none() ? new AgencyTraffic(situations, hours) : AgencyTraffic.NONE;
  }

  private static AgencyTraffic.Own own(JsonFields f) {
    return new AgencyTraffic.Own(
        !f.has("used") || f.yesNo("used"),
        signs(f, "signs"),
        signs(f, "signs_other_way"),
        f.has("arrow_board") ? Optional.of(f.yesNo("arrow_board")) : Optional.empty(),
        f.has("attenuator") ? Optional.of(f.yesNo("attenuator")) : Optional.empty(),
        f.textOr("note", ""));
  }

  /** Written as a driver meets them; kept nearest to the work first. */
  private static List<RoadSign> signs(JsonFields f, String field) {
    if (!f.has(field)) {
      return List.of();
    }
    List<RoadSign> signs =
        new ArrayList<>(
            f.objects(
                field,
                sign -> {
                  String code = sign.text("code");
                  String legend = sign.text("legend");
                  boolean good = CODE.matcher(code).matches();
                  if (!good && !code.isEmpty()) {
                    sign.wrong("code", "a sign designation such as W20-1 or W20-5{side}");
                  }
                  return good && !legend.isEmpty() ? new RoadSign(code, legend) : Signless.SIGN;
                }));
    if (signs.isEmpty()) {
      f.wrong(field, "one sign or more");
    }
    Collections.reverse(signs);
    return signs;
  }

  /** Stands for a sign whose fault is already noted. */
  private static final class Signless {
    static final RoadSign SIGN = new RoadSign("-", "-");
  }

  private static List<Double> hours(JsonFields f) {
    List<Double> shares = new ArrayList<>();
    if (!f.has("hour_shares")) {
      return shares;
    }
    String expected = "24 numbers from midnight on that add up to 1";
    for (JsonValue v : f.list("hour_shares")) {
      double share = v.isNumber() ? Cells.parse(v.text()) : Double.NaN;
      if (!(share >= 0 && share <= 1)) {
        f.problems().wrong(v, "a share from 0 to 1");
        return List.of();
      }
      shares.add(share);
    }
    double sum = shares.stream().mapToDouble(Double::doubleValue).sum();
    if (shares.size() != HOURS || Math.abs(sum - 1) > 0.005) {
      f.wrong("hour_shares", expected);
      return List.of();
    }
    return shares;
  }

  static void write(JsonGenerator out, AgencyTraffic agency) throws IOException {
    out.writeStartObject();
    if (!agency.situations().isEmpty()) {
      out.writeObjectFieldStart("situations");
      for (Situation situation : Situation.values()) {
        AgencyTraffic.Own own = agency.situations().get(situation.key());
        if (own != null) {
          out.writeObjectFieldStart(situation.key());
          write(out, own);
          out.writeEndObject();
        }
      }
      out.writeEndObject();
    }
    if (!agency.hourShares().isEmpty()) {
      out.writeArrayFieldStart("hour_shares");
      for (double share : agency.hourShares()) {
        out.writeNumber(share);
      }
      out.writeEndArray();
    }
    out.writeEndObject();
  }

  private static void write(JsonGenerator out, AgencyTraffic.Own own) throws IOException {
    if (!own.used()) {
      out.writeBooleanField("used", false);
    }
    signs(out, "signs", own.ahead());
    signs(out, "signs_other_way", own.others());
    if (own.arrowBoard().isPresent()) {
      out.writeBooleanField("arrow_board", own.arrowBoard().get());
    }
    if (own.attenuator().isPresent()) {
      out.writeBooleanField("attenuator", own.attenuator().get());
    }
    if (!own.note().isBlank()) {
      out.writeStringField("note", own.note());
    }
  }

  private static void signs(JsonGenerator out, String field, List<RoadSign> nearestFirst)
      throws IOException {
    if (nearestFirst.isEmpty()) {
      return;
    }
    List<RoadSign> met = new ArrayList<>(nearestFirst);
    Collections.reverse(met);
    out.writeArrayFieldStart(field);
    for (RoadSign sign : met) {
      out.writeStartObject();
      out.writeStringField("code", sign.code());
      out.writeStringField("legend", sign.legend());
      out.writeEndObject();
    }
    out.writeEndArray();
  }
}
