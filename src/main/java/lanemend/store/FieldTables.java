package lanemend.store;

import static lanemend.store.Column.day;
import static lanemend.store.Column.id;
import static lanemend.store.Column.optionalDay;
import static lanemend.store.Column.said;
import static lanemend.store.Column.text;
import static lanemend.store.Column.whole;

import java.util.List;

/**
 * Tables of what comes from the roadside: photos, which entries of phones arrived, and those that
 * somebody must look at before they are a defect. A photo's bytes lie by themselves under their
 * SHA-256, since the change log holds whole rows as JSON.
 */
final class FieldTables {
  static final Table PHOTO_CONTENT =
      new Table(
          "photo_content",
          "Photos as files (JPEG or PNG) under the SHA-256 of their bytes",
          Table.Shape.NONE,
          List.of(
              new Column(
                  "hash",
                  "TEXT",
                  "NOT NULL UNIQUE CHECK (length(hash) = 64 AND hash NOT GLOB '*[^0-9a-f]*')"),
              new Column(
                  "media_type",
                  "TEXT",
                  "NOT NULL CHECK (media_type IN ('image/jpeg', 'image/png'))"),
              whole("width_px"),
              whole("height_px"),
              new Column("stored_at", "DATETIME", "NOT NULL"),
              new Column("bytes", "BLOB", "NOT NULL CHECK (typeof(bytes) = 'blob')")),
          "ROW.hash",
          List.of(),
          false);

  static final Table FIELD_ENTRY =
      new Table(
          "field_entry",
          "Entries of phones that somebody must look at before they are a defect",
          Table.Shape.NONE,
          List.of(
              new Column("entry_id", "TEXT", "NOT NULL UNIQUE CHECK (entry_id <> '')"),
              said("json"),
              said("reason"),
              text("sent_by"),
              day("raised_on"),
              new Column("settled", "TEXT", "CHECK (settled IN ('placed', 'withdrawn'))"),
              text("settled_by"),
              optionalDay("settled_on"),
              text("became_id"),
              text("note")),
          "ROW.entry_id",
          List.of(
              "CHECK ((settled IS NULL) = (settled_on IS NULL))",
              "CHECK ((became_id <> '') = (settled IS 'placed'))"),
          true);

  static final Table PHOTO =
      new Table(
          "photo",
          "Which photo shows which defect, work done or entry of a phone",
          Table.Shape.NONE,
          List.of(
              id(),
              new Column("hash", "TEXT", "NOT NULL REFERENCES photo_content(hash)"),
              new Column("defect_id", "TEXT", "REFERENCES defect(id)"),
              new Column("patch_id", "TEXT", "REFERENCES patch(id)"),
              new Column("entry_id", "TEXT", "REFERENCES field_entry(entry_id)"),
              optionalDay("taken_on"),
              text("taken_by"),
              text("note")),
          Tables.BY_ID,
          List.of(
              "UNIQUE (hash, defect_id)",
              "UNIQUE (hash, patch_id)",
              "UNIQUE (hash, entry_id)",
              "CHECK ((defect_id IS NOT NULL) + (patch_id IS NOT NULL) + (entry_id IS NOT NULL)"
                  + " = 1)"),
          true);

  /** Not logged, so that taking an entry back does not let the same one arrive again. */
  static final Table ENTRY_RECEIVED =
      new Table(
          "entry_received",
          "Ids of the entries that phones sent, so that one sent twice arrives once",
          Table.Shape.NONE,
          List.of(
              new Column("entry_id", "TEXT", "NOT NULL UNIQUE CHECK (entry_id <> '')"),
              new Column("received_at", "DATETIME", "NOT NULL"),
              text("who"),
              // Of what was sent: another text under the same id is another entry, and refused.
              said("digest"),
              said("became_table"),
              said("became_key")),
          "ROW.entry_id",
          List.of(),
          false);

  private FieldTables() {}
}
