package lanemend.exchange;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import lanemend.renewal.overlay.LayerTable;
import lanemend.renewal.overlay.LayerTable.Limits;
import lanemend.renewal.overlay.LayerTable.Material;
import lanemend.renewal.overlay.LayerTable.Row;

/**
 * An agency's coefficients of pavement in place: {@code layer_coefficients} in the {@code renewal}
 * object, a list of rows for each material, the first that fits wins, the last has no limits. A
 * material that is not named keeps its standard rows.
 */
final class LayerTableJson {
  private LayerTableJson() {}

  static LayerTable read(JsonFields renewal, LayerTable standard) {
    if (!renewal.has("layer_coefficients")) {
      return standard;
    }
    JsonFields materials = renewal.object("layer_coefficients");
    List<Row> rows = new ArrayList<>();
    for (Material m : Material.values()) {
      String name = name(m);
      if (materials.has(name)) {
        rows.addAll(materials.objects(name, f -> row(m, f)));
      } else {
        standard.rows().stream().filter(r -> r.material() == m).forEach(rows::add);
      }
    }
    materials.done();
    try {
      return new LayerTable(rows);
    } catch (IllegalArgumentException e) {
      materials.wrongWhole("rows of which " + e.getMessage());
      return standard;
    }
  }

  private static Row row(Material material, JsonFields f) {
    Row row =
        new Row(
            material,
            f.text("condition"),
            new Limits(
                most(f, "alligator_low"),
                most(f, "alligator_medium"),
                most(f, "alligator_high"),
                most(f, "transverse_medium_high"),
                most(f, "transverse_high"),
                !f.has("pumping") || f.yesNo("pumping"),
                f.has("least_index") ? f.number("least_index", 0, 100) : 0),
            f.number("low", 0, 0.6),
            f.number("high", 0, 0.6));
    if (row.low() > row.high()) {
      f.wrong("high", "a number not below low");
    }
    return row;
  }

  private static double most(JsonFields f, String field) {
    return f.has(field) ? f.number(field, 0, 100) : 100;
  }

  static void write(JsonGenerator out, LayerTable table) throws IOException {
    out.writeObjectFieldStart("layer_coefficients");
    for (Material m : Material.values()) {
      out.writeArrayFieldStart(name(m));
      for (Row r : table.rows()) {
        if (r.material() == m) {
          row(out, r);
        }
      }
      out.writeEndArray();
    }
    out.writeEndObject();
  }

  private static void row(JsonGenerator out, Row r) throws IOException {
    Limits l = r.limits();
    out.writeStartObject();
    out.writeStringField("condition", r.condition());
    limit(out, "alligator_low", l.alligatorLow(), 100);
    limit(out, "alligator_medium", l.alligatorMedium(), 100);
    limit(out, "alligator_high", l.alligatorHigh(), 100);
    limit(out, "transverse_medium_high", l.transverseMediumHigh(), 100);
    limit(out, "transverse_high", l.transverseHigh(), 100);
    if (!l.pumping()) {
      out.writeBooleanField("pumping", false);
    }
    limit(out, "least_index", l.leastIndex(), 0);
    JsonText.number(out, "low", r.low());
    JsonText.number(out, "high", r.high());
    out.writeEndObject();
  }

  private static void limit(JsonGenerator out, String field, double value, double none)
      throws IOException {
    if (value != none) {
      JsonText.number(out, field, value);
    }
  }

  private static String name(Material m) {
    return m.name().toLowerCase(Locale.ROOT);
  }
}
