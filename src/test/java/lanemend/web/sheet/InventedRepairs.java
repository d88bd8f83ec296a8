package lanemend.web.sheet;

import static lanemend.measure.Conversion.KMH_PER_MPH;
import static lanemend.measure.Conversion.M_PER_FT;
import static lanemend.measure.Conversion.M_PER_IN;
import static lanemend.measure.Conversion.M_PER_MILE;
import static lanemend.measure.Conversion.T_PER_SHORT_TON;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectKind;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.Entered;
import lanemend.inventory.Place;
import lanemend.inventory.Severity;
import lanemend.measure.Figure;
import lanemend.measure.Unit;
import lanemend.network.Lane;
import lanemend.network.RoadClass;
import lanemend.network.Side;
import lanemend.patching.Equipment;
import lanemend.patching.FigureName;
import lanemend.patching.LayDownPlan;
import lanemend.patching.PatchDesign;
import lanemend.patching.RoadSetting;
import lanemend.patching.Treatment;
import lanemend.patching.TreatmentChoice;
import lanemend.patching.WorkStep;

/** Repairs of a likely size, with quantities that can be worked by hand: volume x 145 lb/ft3. */
final class InventedRepairs {
  private InventedRepairs() {}

  static final RoadSetting TWO_LANES =
      new RoadSetting(
          RoadClass.ARTERIAL,
          55 * KMH_PER_MPH,
          2,
          12 * M_PER_FT,
          4 * M_PER_FT,
          false,
          false,
          3400,
          0.08);

  private static Defect defect(
      String id,
      DefectKind kind,
      Severity severity,
      String route,
      double mile,
      double[] size,
      Side side) {
    double from = mile * M_PER_MILE;
    double to = from + size[0] * M_PER_FT;
    return new Defect(
        id,
        kind,
        severity,
        new Place(route, from, to, 0, 0, Entered.byMilepost(route, String.valueOf(mile), null)),
        new Lane(side, 1),
        size[0] * M_PER_FT,
        size[1] * M_PER_FT,
        size[2] * M_PER_IN,
        InventedDay.DATE.minusDays(20),
        "patrol 2",
        "",
        DefectStatus.OPEN,
        id.equals("D-0102") ? "gas <main> marker & valve nearby \u2264 6 ft" : "");
  }

  private static Figure minutes(String name, double value) {
    return new Figure(
        name + " minutes",
        value,
        Unit.MINUTE,
        "area / rate",
        List.of(new Figure.Input("rate", 3, Unit.COUNT)),
        Figure.COMMON_PRACTICE);
  }

  private static Figure mix(double tons, double volumeM3) {
    return new Figure(
        FigureName.MIX,
        tons * T_PER_SHORT_TON,
        Unit.TONNE,
        "compacted volume x density",
        List.of(
            new Figure.Input("compacted volume", volumeM3, Unit.CUBIC_METER),
            new Figure.Input("density", 2323, Unit.KG_PER_CUBIC_METER)),
        "common value of 145 lb/ft3, common practice, no source");
  }

  /** Named as the patch designer names them. */
  private static List<Figure> tack(double areaFt2) {
    Figure area =
        new Figure(
            "tacked area",
            areaFt2 * M_PER_FT * M_PER_FT,
            Unit.SQUARE_METER,
            "area of all faces",
            List.of(),
            "plain geometry");
    Figure residual =
        new Figure(
            "tack residual rate",
            0.226,
            Unit.LITER_PER_SQUARE_METER,
            "rate for the surface",
            List.of(),
            "FHWA-HIF-16-017, from memory");
    Figure spray =
        new Figure(
            FigureName.TACK,
            area.value() * 0.226 / 0.6,
            Unit.LITER,
            "area x residual rate / residue fraction",
            List.of(
                area.asInput(),
                residual.asInput(),
                new Figure.Input("residue fraction", 0.6, Unit.RATIO)),
            "arithmetic");
    return List.of(area, residual, spray);
  }

  private static LayDownPlan layDown(double mile) {
    Figure windrow =
        new Figure(
            "windrow section",
            0.37,
            Unit.CROSS_SECTION_SQUARE_METER,
            "loose volume / length",
            List.of(),
            "geometry");
    return new LayDownPlan(
        List.of(windrow),
        List.of(
            "Start dumping 2 ft beyond the tack at milepost " + (10 + mile) + ".",
            "Windrow 4.0 ft2 loose along the centreline side of the tack.",
            "First lift: carry the mix out to the shoulder, then back to the centre.",
            "Roll from shoulder to crown, each pass over half of the last."));
  }

  static PatchDesign blade(
      String id,
      String route,
      double mile,
      double lengthFt,
      double widthFt,
      double depthIn,
      Severity severity) {
    double tons = lengthFt * widthFt * depthIn / 12 * 145 / 2000;
    List<Figure> figures = new ArrayList<>();
    figures.add(mix(tons, lengthFt * widthFt * depthIn / 12 * 0.0283168));
    figures.addAll(tack(lengthFt * widthFt));
    figures.add(
        new Figure(
            FigureName.LIFTS,
            Math.ceil(depthIn),
            Unit.COUNT,
            "ceil(depth / largest lift)",
            List.of(
                new Figure.Input("depth", depthIn * M_PER_IN, Unit.THICKNESS_METER),
                new Figure.Input("largest lift", M_PER_IN, Unit.THICKNESS_METER)),
            Figure.COMMON_PRACTICE));
    figures.add(
        new Figure(
            FigureName.PASSES,
            8,
            Unit.COUNT,
            "passes over the width x lifts",
            List.of(),
            "US Army FM 5-434, from memory"));
    return new PatchDesign(
        defect(
            id,
            DefectKind.RUTTING,
            severity,
            route,
            mile,
            new double[] {lengthFt, widthFt, depthIn},
            Side.RIGHT),
        TWO_LANES,
        new TreatmentChoice(
            Treatment.BLADE_PATCH,
            "rut-blade",
            "Rutting over 100 ft2 is bladed, not hand patched."),
        figures,
        List.of(
            new WorkStep("sweep", minutes("sweep", 6), 2, false),
            new WorkStep("tack and break", minutes("tack and break", 22), 6, false),
            new WorkStep("blade", minutes("blade", 31), 7, false),
            new WorkStep("roll", minutes("roll", 18), 4, false)),
        EnumSet.of(
            Equipment.MOTOR_GRADER, Equipment.DISTRIBUTOR, Equipment.ROLLER, Equipment.BROOM),
        Optional.of(layDown(mile)),
        List.of(
            "Hot mix burns: gloves, sleeves, and nobody behind a truck that backs up.",
            "Keep people away from the grader's blade and from behind it."));
  }

  static PatchDesign hand(
      String id,
      String route,
      double mile,
      double lengthFt,
      double widthFt,
      double depthIn,
      Severity severity,
      Side side) {
    double tons = lengthFt * widthFt * depthIn / 12 * 145 / 2000;
    List<Figure> figures = new ArrayList<>();
    figures.add(mix(tons, lengthFt * widthFt * depthIn / 12 * 0.0283168));
    figures.addAll(tack(lengthFt * widthFt));
    return new PatchDesign(
        defect(
            id,
            DefectKind.POTHOLE,
            severity,
            route,
            mile,
            new double[] {lengthFt, widthFt, depthIn},
            side),
        TWO_LANES,
        new TreatmentChoice(
            Treatment.HAND_PATCH, "pothole-hand", "A small pothole is patched by hand."),
        figures,
        List.of(
            new WorkStep("cut and clean", minutes("cut and clean", 9), 3, false),
            new WorkStep("fill and compact", minutes("fill and compact", 7), 2, false)),
        EnumSet.of(Equipment.PLATE_COMPACTOR, Equipment.PAVEMENT_SAW),
        Optional.empty(),
        List.of("Hot mix burns: gloves, sleeves, and nobody behind a truck that backs up."));
  }
}
