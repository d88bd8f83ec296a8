package lanemend.store;

import static lanemend.store.Column.code;
import static lanemend.store.Column.day;
import static lanemend.store.Column.said;

import java.sql.SQLException;
import java.util.List;
import lanemend.patching.ChosenTreatment;
import lanemend.patching.Treatment;

/** Rows of treatments chosen by hand. */
final class ChosenTreatmentShape implements RowShape<ChosenTreatment> {
  static final Table CHOSEN_TREATMENT =
      new Table(
          "chosen_treatment",
          "Treatments somebody chose for a defect in place of what the rules say",
          Table.Shape.NONE,
          List.of(
              new Column("defect_id", "TEXT", "NOT NULL UNIQUE REFERENCES defect(id)"),
              code("treatment", Treatment.class),
              said("note"),
              said("chosen_by"),
              day("chosen_on")),
          "ROW.defect_id",
          List.of(),
          true);

  static final ChosenTreatmentShape CHOSEN = new ChosenTreatmentShape();

  private ChosenTreatmentShape() {}

  @Override
  public Table table() {
    return CHOSEN_TREATMENT;
  }

  @Override
  public String key(ChosenTreatment c) {
    return c.defectId();
  }

  @Override
  public Object[] values(ChosenTreatment c, Roads roads) {
    return new Object[] {
      c.defectId(), Column.code(c.treatment()), c.note(), c.by(), c.on().toString()
    };
  }

  @Override
  public ChosenTreatment read(Row row) throws SQLException {
    return new ChosenTreatment(
        row.text("defect_id"),
        row.code("treatment", Treatment.class),
        row.text("note"),
        row.text("chosen_by"),
        row.day("chosen_on"));
  }
}
