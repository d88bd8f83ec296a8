package lanemend.exchange;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Collection;
import java.util.Locale;
import java.util.Map;
import lanemend.crewdays.Agency;
import lanemend.crewdays.Crew;
import lanemend.crewdays.EquipmentUnit;
import lanemend.crewdays.PlanSettings;
import lanemend.crewdays.Plant;
import lanemend.crewdays.Yard;
import lanemend.measure.Conversion;
import lanemend.measure.UnitSystem;
import lanemend.network.ProjectedCrs;
import lanemend.patching.PatchSettings;
import lanemend.renewal.RenewalRules;

/**
 * An agency as the JSON that {@link AgencyReader}, {@link PatchOverrides} and {@link
 * RenewalRulesReader} read, in the agency's own units. Constants that are the standard ones are not
 * written.
 */
public final class AgencyWriter {
  private final JsonGenerator out;
  private final ProjectedCrs crs;
  private final boolean us;

  private AgencyWriter(JsonGenerator out, ProjectedCrs crs, boolean us) {
    this.out = out;
    this.crs = crs;
    this.us = us;
  }

  /**
   * The text of an agency file.
   *
   * @param patching the agency's constants of repairs; sentences in other units than the agency's
   *     are a constant of its own too
   * @param renewal what the agency sets for renewal
   */
  public static String json(
      Agency agency, ProjectedCrs crs, PatchSettings patching, RenewalRules renewal) {
    boolean us = agency.units() == UnitSystem.US_CUSTOMARY;
    return JsonText.of(
        out -> {
          out.writeStartObject();
          new AgencyWriter(out, crs, us).agency(agency);
          PatchOverrides.write(out, patching, PatchSettings.standard().inWords(agency.units()));
          RenewalRulesWriter.write(out, us, renewal, RenewalRules.standard());
          out.writeEndObject();
        });
  }

  private void agency(Agency a) throws IOException {
    out.writeStringField("name", a.name());
    out.writeStringField("units", us ? "us" : "metric");
    out.writeArrayFieldStart("yards");
    for (Yard y : a.yards()) {
      out.writeStartObject();
      named(y.id(), y.name());
      place(y.x(), y.y());
      out.writeEndObject();
    }
    out.writeEndArray();
    out.writeArrayFieldStart("plants");
    for (Plant p : a.plants()) {
      if (!p.isStockpile()) {
        plant(p);
      }
    }
    out.writeEndArray();
    out.writeArrayFieldStart("stockpiles");
    for (Plant p : a.plants()) {
      if (p.isStockpile()) {
        stockpile(p);
      }
    }
    out.writeEndArray();
    out.writeArrayFieldStart("crews");
    for (Crew c : a.crews()) {
      crew(c);
    }
    out.writeEndArray();
    out.writeArrayFieldStart("equipment");
    for (EquipmentUnit e : a.equipment()) {
      out.writeStartObject();
      out.writeStringField("id", e.id());
      out.writeStringField("kind", lower(e.kind()));
      dates("out_of_service", e.outOfService());
      out.writeEndObject();
    }
    out.writeEndArray();
    plan(a.plan());
  }

  private void named(String id, String name) throws IOException {
    out.writeStringField("id", id);
    out.writeStringField("name", name);
  }

  private void place(double x, double y) throws IOException {
    double[] at = crs.unproject(x, y);
    JsonText.number(out, "longitude", at[0]);
    JsonText.number(out, "latitude", at[1]);
  }

  private void plant(Plant p) throws IOException {
    out.writeStartObject();
    named(p.id(), p.name());
    place(p.x(), p.y());
    out.writeStringField("opens", p.opens().toString());
    out.writeStringField("closes", p.closes().toString());
    tons("daily_tons", "daily_tonnes", p.dailyTonnes());
    JsonText.number(out, "load_minutes", p.loadMinutes());
    JsonText.number(out, "mix_window_minutes", p.mixWindowMinutes());
    perUnit("price_per_ton", Conversion.T_PER_SHORT_TON, "price_per_tonne", p.pricePerTonne());
    out.writeEndObject();
  }

  private void stockpile(Plant p) throws IOException {
    out.writeStartObject();
    named(p.id(), p.name());
    place(p.x(), p.y());
    tons("tons", "tonnes", p.stockTonnes());
    JsonText.number(out, "load_minutes", p.loadMinutes());
    perUnit("price_per_ton", Conversion.T_PER_SHORT_TON, "price_per_tonne", p.pricePerTonne());
    words("serves", p.serves());
    out.writeEndObject();
  }

  private void crew(Crew c) throws IOException {
    out.writeStartObject();
    named(c.id(), c.name());
    out.writeStringField("yard", c.yardId());
    out.writeStringField("shift_start", c.shiftStart().toString());
    JsonText.number(out, "shift_hours", c.shiftMinutes() / 60.0);
    out.writeNumberField("trucks", c.trucks());
    JsonText.money(out, "cost_per_hour", c.costPerHour());
    words("does", c.does());
    dates("days_off", c.daysOff());
    out.writeEndObject();
  }

  private void plan(PlanSettings p) throws IOException {
    out.writeObjectFieldStart("plan");
    out.writeStringField("first_day", p.firstDay().toString());
    out.writeNumberField("calendar_days", p.calendarDays());
    words("workdays", p.workdays());
    dates("blackout", p.blackout());
    numbers("due_days", p.dueDays(), 1);
    numbers("due_factor", p.dueFactor(), 1);
    numbers(us ? "max_zone_ft" : "max_zone_m", p.maxZoneM(), us ? Conversion.M_PER_FT : 1);
    tons("truck_payload_tons", "truck_payload_tonnes", p.truckPayloadTonnes());
    JsonText.number(out, "truck_speed_factor", p.truckSpeedFactor());
    JsonText.number(out, "dump_minutes", p.dumpMinutes());
    JsonText.money(out, "truck_cost_per_hour", p.truckCostPerHour());
    perUnit("cost_per_mile", Conversion.M_PER_MILE / 1_000, "cost_per_km", p.costPerKm());
    JsonText.money(out, "delay_cost_per_vehicle_hour", p.delayCostPerVehicleHour());
    JsonText.money(out, "late_per_day", p.latePerDay());
    out.writeStringField("currency", p.currency());
    WorkRulesWriter rules = new WorkRulesWriter(out, us);
    rules.finish(p.finish());
    rules.season(p.season());
    out.writeEndObject();
  }

  private void tons(String usField, String metricField, double tonnes) throws IOException {
    JsonText.number(
        out, us ? usField : metricField, us ? tonnes / Conversion.T_PER_SHORT_TON : tonnes);
  }

  private void perUnit(String usField, double metricPerUs, String metricField, BigDecimal price)
      throws IOException {
    if (us) {
      // The price went through a division when it was read; its last digits are noise.
      double perUs = price.doubleValue() * metricPerUs;
      JsonText.number(out, usField, Math.rint(perUs * 1e6) / 1e6);
    } else {
      JsonText.money(out, metricField, price);
    }
  }

  private <E extends Enum<E>> void numbers(
      String field, Map<E, ? extends Number> values, double unit) throws IOException {
    out.writeObjectFieldStart(field);
    for (var e : new java.util.TreeMap<>(values).entrySet()) {
      JsonText.number(out, lower(e.getKey()), e.getValue().doubleValue() / unit);
    }
    out.writeEndObject();
  }

  private void dates(String field, Collection<LocalDate> dates) throws IOException {
    out.writeArrayFieldStart(field);
    for (LocalDate d : new java.util.TreeSet<>(dates)) {
      out.writeString(d.toString());
    }
    out.writeEndArray();
  }

  private <E extends Enum<E>> void words(String field, Collection<E> words) throws IOException {
    out.writeArrayFieldStart(field);
    for (E word : new java.util.TreeSet<>(words)) {
      out.writeString(lower(word));
    }
    out.writeEndArray();
  }

  private static String lower(Enum<?> e) {
    return e.name().toLowerCase(Locale.ROOT);
  }
}
