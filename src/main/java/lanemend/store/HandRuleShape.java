package lanemend.store;

import java.sql.SQLException;
import lanemend.crewdays.HandRule;

/** What is settled by hand, in its table. */
final class HandRuleShape implements RowShape<HandRule> {
  static final HandRuleShape HAND_RULE = new HandRuleShape();

  private HandRuleShape() {}

  @Override
  public Table table() {
    return HandTables.HAND_RULE;
  }

  @Override
  public String key(HandRule r) {
    String about = r.defectId().isEmpty() ? r.crewId() + " " + r.date() : r.defectId();
    return Column.code(r.kind()) + " " + about;
  }

  @Override
  public Object[] values(HandRule r, Roads roads) {
    return new Object[] {
      Column.code(r.kind()),
      r.defectId().isEmpty() ? null : r.defectId(),
      r.zone(),
      r.crewId(),
      EventShapes.day(r.date()),
      r.reason()
    };
  }

  @Override
  public HandRule read(Row row) throws SQLException {
    String defect = row.optionalText("repair_id");
    try {
      return new HandRule(
          row.code("kind", HandRule.Kind.class),
          defect == null ? "" : defect,
          row.text("zone_key"),
          row.text("crew_id"),
          row.day("work_date"),
          row.text("reason"));
    } catch (IllegalArgumentException e) {
      throw row.odd("kind", e.getMessage(), "a rule that fits together");
    }
  }
}
