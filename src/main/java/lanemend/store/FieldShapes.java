package lanemend.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.Optional;

/** Photos and phones' entries in their tables. */
final class FieldShapes {
  static final RowShape<Photo> PHOTO = new PhotoShape();
  static final RowShape<FieldEntry> ENTRY = new EntryShape();

  private FieldShapes() {}

  private static final class PhotoShape implements RowShape<Photo> {
    @Override
    public Table table() {
      return FieldTables.PHOTO;
    }

    @Override
    public String key(Photo p) {
      return p.id();
    }

    @Override
    public Object[] values(Photo p, Roads roads) {
      return new Object[] {
        p.id(),
        p.hash(),
        p.of() == Photo.Of.DEFECT ? p.ownerId() : null,
        p.of() == Photo.Of.PATCH ? p.ownerId() : null,
        p.of() == Photo.Of.ENTRY ? p.ownerId() : null,
        EventShapes.day(p.takenOn()),
        p.takenBy(),
        p.note()
      };
    }

    @Override
    public Photo read(Row row) throws SQLException {
      String defect = row.optionalText("defect_id");
      String patch = row.optionalText("patch_id");
      Photo.Of of =
          defect != null ? Photo.Of.DEFECT : patch != null ? Photo.Of.PATCH : Photo.Of.ENTRY;
      return new Photo(
          row.text("id"),
          row.text("hash"),
          of,
          defect != null ? defect : patch != null ? patch : row.text("entry_id"),
          row.day("taken_on"),
          row.text("taken_by"),
          row.text("note"));
    }
  }

  private static final class EntryShape implements RowShape<FieldEntry> {
    @Override
    public Table table() {
      return FieldTables.FIELD_ENTRY;
    }

    @Override
    public String key(FieldEntry e) {
      return e.entryId();
    }

    @Override
    public Object[] values(FieldEntry e, Roads roads) {
      return new Object[] {
        e.entryId(),
        e.json(),
        e.reason(),
        e.sentBy(),
        EventShapes.day(e.raisedOn()),
        e.settled() == null ? null : Column.code(e.settled()),
        e.settledBy(),
        EventShapes.day(e.settledOn()),
        e.becameId(),
        e.note()
      };
    }

    @Override
    public FieldEntry read(Row row) throws SQLException {
      return new FieldEntry(
          row.text("entry_id"),
          row.text("json"),
          row.text("reason"),
          row.text("sent_by"),
          row.day("raised_on"),
          row.optionalText("settled") == null
              ? null
              : row.code("settled", FieldEntry.Settled.class),
          row.text("settled_by"),
          row.day("settled_on"),
          row.text("became_id"),
          row.text("note"));
    }
  }

  /** Keeps a photo's file unless it is there already. */
  static void keep(Session session, PhotoContent photo, String at) {
    session.run(
        () ->
            session
                .statement(
                    "INSERT INTO photo_content (hash, media_type, width_px, height_px, stored_at,"
                        + " bytes) VALUES (?, ?, ?, ?, ?, ?) ON CONFLICT (hash) DO NOTHING",
                    photo.hash(),
                    photo.mediaType(),
                    photo.widthPx(),
                    photo.heightPx(),
                    at,
                    photo.bytes())
                .executeUpdate());
  }

  static Optional<PhotoContent> content(Session session, String hash) throws SQLException {
    String sql = "SELECT * FROM photo_content WHERE hash = ?";
    try (ResultSet r = session.statement(sql, hash).executeQuery()) {
      return r.next()
          ? Optional.of(
              new PhotoContent(
                  r.getString("hash"),
                  r.getString("media_type"),
                  r.getInt("width_px"),
                  r.getInt("height_px"),
                  r.getBytes("bytes")))
          : Optional.empty();
    }
  }

  static boolean hasContent(Session session, String hash) throws SQLException {
    String sql = "SELECT 1 FROM photo_content WHERE hash = ?";
    try (ResultSet r = session.statement(sql, hash).executeQuery()) {
      return r.next();
    }
  }

  static void receive(Session session, EntryReceived e, String at, String who) {
    session.insert(
        FieldTables.ENTRY_RECEIVED,
        e.entryId(),
        e.entryId(),
        at,
        who,
        e.digest(),
        e.becameTable(),
        e.becameKey());
  }

  static Optional<EntryReceived> received(Session session, String entryId) throws SQLException {
    String sql = "SELECT * FROM entry_received WHERE entry_id = ?";
    try (ResultSet r = session.statement(sql, entryId).executeQuery()) {
      return r.next()
          ? Optional.of(
              new EntryReceived(
                  r.getString("entry_id"),
                  r.getString("digest"),
                  r.getString("became_table"),
                  r.getString("became_key")))
          : Optional.empty();
    }
  }
}
