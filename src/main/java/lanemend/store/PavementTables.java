package lanemend.store;

import static lanemend.store.Column.code;
import static lanemend.store.Column.day;
import static lanemend.store.Column.flag;
import static lanemend.store.Column.id;
import static lanemend.store.Column.number;
import static lanemend.store.Column.references;
import static lanemend.store.Column.said;
import static lanemend.store.Column.text;
import static lanemend.store.Column.whole;

import java.util.List;
import lanemend.inventory.DistressKind;
import lanemend.inventory.PavementLayer;
import lanemend.inventory.Severity;

/** Tables of the pavement in place: condition surveys and layers. */
final class PavementTables {
  static final Table SURVEYED_DISTRESS =
      new Table(
          "surveyed_distress",
          "Distress of sample units of a condition survey, drawn along the sample",
          Table.Shape.LINES,
          List.of(
              id(),
              said("sample"),
              references("route_id", "roadway", "id"),
              number("from_along_m"),
              number("to_along_m"),
              new Column("area_m2", "DOUBLE", "NOT NULL CHECK (area_m2 BETWEEN 1e-9 AND 1e300)"),
              flag("additional"),
              day("surveyed_on"),
              text("surveyed_by"),
              code("kind", DistressKind.class),
              code("severity", Severity.class),
              number("quantity")),
          Tables.BY_ID,
          List.of(
              "UNIQUE (sample, surveyed_on, kind, severity)",
              "CHECK (from_along_m < to_along_m)",
              "CHECK (quantity >= 0 AND (quantity = 0) = (kind = 'none'))"),
          true);

  static final Table PAVEMENT_LAYER =
      new Table(
          "pavement_layer",
          "Thickness of a layer of the pavement in place, by core or as built",
          Table.Shape.LINES,
          List.of(
              id(),
              references("route_id", "roadway", "id"),
              number("from_along_m"),
              number("to_along_m"),
              code("layer", PavementLayer.Course.class),
              new Column(
                  "thickness_m", "DOUBLE", "NOT NULL CHECK (thickness_m BETWEEN 1e-9 AND 9)"),
              whole("year"),
              code("source", PavementLayer.Source.class)),
          Tables.BY_ID,
          List.of("CHECK (from_along_m < to_along_m)", "CHECK (year BETWEEN 1900 AND 2199)"),
          true);

  private PavementTables() {}
}
