package lanemend.store;

import java.sql.ResultSet;
import java.sql.SQLException;

/** Whether every photo has its file, every file is what its hash says, and somebody needs it. */
final class PhotoCheck {
  /** A photo is sent before the entry that names it; for so long it may belong to nothing. */
  private static final String ON_ITS_WAY = "-2 days";

  private PhotoCheck() {}

  static void check(Session session, Troubles found) throws SQLException {
    missing(session, found);
    damaged(session, found);
    orphans(session, found);
  }

  private static void missing(Session session, Troubles found) throws SQLException {
    String sql =
        "SELECT p.id, coalesce('defect ' || p.defect_id, 'patch ' || p.patch_id, 'entry ' ||"
            + " p.entry_id) AS owner FROM photo p LEFT JOIN photo_content c ON c.hash = p.hash"
            + " WHERE c.hash IS NULL ORDER BY p.fid";
    try (ResultSet r = session.statement(sql).executeQuery()) {
      while (r.next()) {
        found.add(
            "photo '"
                + r.getString("id")
                + "' of "
                + r.getString("owner")
                + " has lost its file: put back a backup copy, or remove the photo");
      }
    }
  }

  private static void damaged(Session session, Troubles found) throws SQLException {
    try (ResultSet r =
        session.statement("SELECT hash, bytes FROM photo_content ORDER BY fid").executeQuery()) {
      while (r.next()) {
        if (!PhotoContent.hash(r.getBytes("bytes")).equals(r.getString("hash"))) {
          found.add(
              "photo_content "
                  + r.getString("hash")
                  + " is damaged: its bytes are others than were stored; put back a backup copy");
        }
      }
    }
  }

  private static void orphans(Session session, Troubles found) throws SQLException {
    // What the change log names may come back by undo.
    String orphan =
        " FROM photo_content WHERE datetime(stored_at) < datetime('now', '"
            + ON_ITS_WAY
            + "') AND hash NOT IN (SELECT hash FROM photo) AND hash NOT IN (SELECT"
            + " json_extract(coalesce(after_json, before_json), '$.hash') FROM change_log WHERE"
            + " table_name = 'photo')";
    try (ResultSet r = session.statement("SELECT hash, stored_at" + orphan).executeQuery()) {
      while (r.next()) {
        found.add(
            "photo_content "
                + r.getString("hash")
                + " is an orphan: it came on "
                + r.getString("stored_at").substring(0, 10)
                + " and nothing names it",
            "removed photo files that nothing names",
            s -> s.execute("DELETE" + orphan));
      }
    }
  }
}
