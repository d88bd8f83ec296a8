package lanemend.store;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.type.TypeReference;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;

/** Import runs in their table. */
final class ImportRows {
  private static final ObjectMapper JSON = new ObjectMapper();

  private ImportRows() {}

  static void write(Session session, ImportRun run, String at, String who) {
    String problems;
    try {
      problems = JSON.writeValueAsString(run.problems());
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("a list of texts cannot be written as JSON", e);
    }
    session.insert(
        Tables.IMPORT_RUN,
        run.source(),
        at,
        who,
        run.kind(),
        run.source(),
        run.rowsSeen(),
        run.rowsKept(),
        run.rowsSeen() - run.rowsKept(),
        problems);
  }

  static List<ImportRun> read(Session session) throws SQLException {
    List<ImportRun> runs = new ArrayList<>();
    try (ResultSet r = session.statement("SELECT * FROM import_run ORDER BY fid").executeQuery()) {
      while (r.next()) {
        runs.add(
            new ImportRun(
                r.getString("kind"),
                r.getString("source"),
                r.getLong("rows_seen"),
                r.getLong("rows_kept"),
                problems(r.getString("problems_json"))));
      }
    }
    return runs;
  }

  private static List<String> problems(String json) {
    try {
      return JSON.readValue(json, new TypeReference<List<String>>() {});
    } catch (JsonProcessingException e) {
      throw new StoreException("an import run's problems_json is no JSON list of texts", e);
    }
  }
}
