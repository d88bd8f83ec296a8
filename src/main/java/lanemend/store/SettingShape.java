package lanemend.store;

import java.sql.SQLException;

/** Settings in their table. */
final class SettingShape implements RowShape<Setting> {
  static final SettingShape SETTING = new SettingShape();

  private SettingShape() {}

  @Override
  public Table table() {
    return Tables.SETTING;
  }

  @Override
  public String key(Setting s) {
    return s.key();
  }

  @Override
  public Object[] values(Setting s, Roads roads) {
    return new Object[] {s.key(), s.json()};
  }

  @Override
  public Setting read(Row row) throws SQLException {
    return new Setting(row.text("setting_key"), row.text("json"));
  }
}
