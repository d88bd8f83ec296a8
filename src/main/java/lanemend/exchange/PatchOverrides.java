package lanemend.exchange;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.RecordComponent;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.Locale;
import lanemend.patching.AgencyTraffic;
import lanemend.patching.PatchSettings;

/**
 * The agency's own constants in place of the standard ones: the optional object {@code patching} of
 * the agency file. Its fields are those of {@link PatchSettings} in lower case with underscores,
 * nested as there ({@code blade.max_lift_m}), in the SI unit their name ends with; what is not
 * named stays as it is. {@link AgencyWriter} is the way back.
 */
public final class PatchOverrides {
  private static final double LARGEST = 1e6;

  private PatchOverrides() {}

  /**
   * Reads the {@code patching} object of an agency file.
   *
   * @param standard what holds where the file says nothing
   * @throws ExchangeException with everything that is wrong
   */
  public static PatchSettings read(Path agencyFile, PatchSettings standard) {
    return in(RowSource.nameOf(agencyFile), JsonValue.read(agencyFile), standard);
  }

  /**
   * The same from the text of an agency file.
   *
   * @throws ExchangeException with everything that is wrong
   */
  public static PatchSettings parse(String name, String json, PatchSettings standard) {
    return in(name, JsonValue.parse(name, json), standard);
  }

  private static PatchSettings in(String name, JsonValue root, PatchSettings standard) {
    JsonProblems problems = new JsonProblems(name);
    JsonFields fields = new JsonFields(root, problems);
    PatchSettings settings = standard;
    if (fields.has("patching")) {
      settings = overridden(fields.object("patching"), standard);
    }
    problems.check();
    return settings;
  }

  /**
   * Writes the {@code patching} object with every constant that is not the standard one; nothing
   * when all are. Reading it back gives the same settings to the last bit.
   */
  static void write(JsonGenerator out, PatchSettings settings, PatchSettings standard)
      throws IOException {
    if (!settings.equals(standard)) {
      out.writeObjectFieldStart("patching");
      differences(out, settings, standard);
      out.writeEndObject();
    }
  }

  private static void differences(JsonGenerator out, Record settings, Record standard)
      throws IOException {
    for (RecordComponent c : settings.getClass().getRecordComponents()) {
      Object now = get(c, settings);
      Object usual = get(c, standard);
      if (now.equals(usual)) {
        continue;
      }
      out.writeFieldName(snake(c.getName()));
      if (now instanceof AgencyTraffic agency) {
        AgencyTrafficJson.write(out, agency);
      } else if (now instanceof Record record) {
        out.writeStartObject();
        differences(out, record, (Record) usual);
        out.writeEndObject();
      } else if (now instanceof Double d) {
        out.writeNumber(new BigDecimal(Double.toString(d)).toPlainString());
      } else if (now instanceof Integer n) {
        out.writeNumber(n);
      } else if (now instanceof Boolean b) {
        out.writeBoolean(b);
      } else {
        out.writeString(((Enum<?>) now).name().toLowerCase(Locale.ROOT));
      }
    }
  }

  private static Object get(RecordComponent component, Record record) {
    try {
      return component.getAccessor().invoke(record);
    } catch (ReflectiveOperationException e) {
      throw new IllegalStateException("the settings are public records", e);
    }
  }

  private static <R extends Record> R overridden(JsonFields fields, R standard) {
    RecordComponent[] components = standard.getClass().getRecordComponents();
    Object[] values = new Object[components.length];
    Class<?>[] types = new Class<?>[components.length];
    try {
      for (int i = 0; i < components.length; i++) {
        types[i] = components[i].getType();
        Object usual = components[i].getAccessor().invoke(standard);
        String field = snake(components[i].getName());
        values[i] = fields.has(field) ? value(fields, field, usual) : usual;
      }
      fields.done();
      if (!fields.problems().none()) {
        return standard;
      }
      @SuppressWarnings("unchecked")
      R made = (R) standard.getClass().getDeclaredConstructor(types).newInstance(values);
      return made;
    } catch (InvocationTargetException e) {
      String why = String.valueOf(e.getTargetException().getMessage());
      fields.wrongWhole("settings that fit together (" + why + ")");
      return standard;
    } catch (ReflectiveOperationException e) {
      throw new IllegalStateException("the settings are public records", e);
    }
  }

  private static Object value(JsonFields fields, String field, Object usual) {
    if (usual instanceof AgencyTraffic) {
      return AgencyTrafficJson.read(fields.object(field));
    }
    if (usual instanceof Record record) {
      return overridden(fields.object(field), record);
    }
    if (usual instanceof Double d) {
      // A speed or a share of nothing would divide by zero later, far from this file.
      return fields.number(field, d > 0 ? 1e-9 : d == 0 ? 0 : -LARGEST, LARGEST);
    }
    if (usual instanceof Integer n) {
      return fields.whole(field, n > 0 ? 1 : 0, (int) LARGEST);
    }
    if (usual instanceof Boolean) {
      return fields.yesNo(field);
    }
    if (usual instanceof Enum<?> e) {
      return fields.word(field, e.getDeclaringClass());
    }
    throw new IllegalStateException(field + " is of a kind that cannot be given: " + usual);
  }

  private static String snake(String camel) {
    return camel.replaceAll("([a-z0-9])([A-Z])", "$1_$2").toLowerCase(Locale.ROOT);
  }
}
