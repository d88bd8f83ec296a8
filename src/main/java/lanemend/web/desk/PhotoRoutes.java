package lanemend.web.desk;

import io.javalin.http.Context;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.regex.Pattern;
import lanemend.county.County;
import lanemend.county.FieldPhotos;
import lanemend.exchange.PhotoFile;
import lanemend.store.Photo;
import lanemend.store.PhotoContent;
import lanemend.store.Stored;

/** Photos: their files, and which defect they show. */
final class PhotoRoutes implements Area {
  /** A photo opened by itself is a picture and nothing that could run. */
  private static final String POLICY = "default-src 'none'; sandbox";

  private static final Pattern HASH = Pattern.compile("[0-9a-f]{64}");

  private final CurrentCounty county;
  private final Clock clock;

  PhotoRoutes(CurrentCounty county, Clock clock) {
    this.county = county;
    this.clock = clock;
  }

  /** A photo's file as it is kept. */
  record Kept(String hash, String mediaType, int widthPx, int heightPx, int bytes) {}

  /**
   * A photo of a defect.
   *
   * @param of {@code defect}, or {@code patch} for work done on it
   */
  record Shown(String id, String hash, String of, LocalDate takenOn, String takenBy) {}

  /** A photo to add, whose file was sent before. */
  record AddForm(String hash) {}

  @Override
  public void addTo(Api api) {
    api.post("/api/photos", this::keep);
    api.get("/api/photos/{hash}", this::file);
    api.get("/api/defects/{id}/photos", c -> c.json(of(c.pathParam("id"))));
    api.post("/api/defects/{id}/photos", this::add);
    api.delete("/api/defects/{id}/photos/{photo}", this::remove);
  }

  private void keep(Context c) {
    PhotoFile photo;
    try {
      photo = PhotoFile.read(bytes(c));
    } catch (PhotoFile.Refused e) {
      throw new Problem(Problem.Kind.BAD_VALUE, e.getMessage()).with("field", "photos");
    }
    PhotoContent content =
        PhotoContent.of(photo.mediaType(), photo.widthPx(), photo.heightPx(), photo.bytes());
    boolean there = county.read(s -> s.hasPhotoContent(content.hash()));
    if (!there) {
      county.store().write(Caller.name(c), "desk: keep photo", change -> change.keepPhoto(content));
    }
    c.status(there ? 200 : 201)
        .json(
            new Kept(
                content.hash(),
                content.mediaType(),
                content.widthPx(),
                content.heightPx(),
                content.bytes().length));
  }

  /** Reads no more than may be taken. */
  private static byte[] bytes(Context c) {
    try (InputStream in = c.bodyInputStream()) {
      return in.readNBytes(PhotoFile.MOST_BYTES + 1);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void file(Context c) {
    String hash = c.pathParam("hash");
    PhotoContent photo =
        (HASH.matcher(hash).matches()
                ? county.read(s -> s.photoContent(hash))
                : java.util.Optional.<PhotoContent>empty())
            .orElseThrow(
                () -> new Problem(Problem.Kind.NOT_FOUND, "there is no photo '" + hash + "'"));
    String ending = photo.mediaType().equals("image/png") ? ".png" : ".jpg";
    c.contentType(photo.mediaType())
        .header("Content-Security-Policy", POLICY)
        .header(
            "Content-Disposition", "inline; filename=\"" + hash.substring(0, 12) + ending + "\"")
        .header("Cache-Control", "private, max-age=86400")
        .result(photo.bytes());
  }

  private List<Shown> of(String id) {
    County now = county.get();
    DefectRows.of(now, id);
    return county.read(
        s ->
            FieldPhotos.of(s, now, id).stream()
                .map(Stored::value)
                .map(
                    p ->
                        new Shown(
                            p.id(), p.hash(), DeskWords.code(p.of()), p.takenOn(), p.takenBy()))
                .toList());
  }

  private void add(Context c) {
    String id = c.pathParam("id");
    AddForm form = Api.body(c, AddForm.class);
    DefectRows.of(county.get(), id);
    if (form.hash() == null || !HASH.matcher(form.hash()).matches()) {
      throw new Problem(Problem.Kind.BAD_VALUE, "a photo is named by its SHA-256")
          .with("field", "hash");
    }
    LocalDate today = LocalDate.now(clock);
    county
        .store()
        .write(
            Caller.name(c),
            "desk: add photo to " + id,
            change ->
                FieldPhotos.add(
                    change,
                    Photo.Of.DEFECT,
                    id,
                    new FieldPhotos.Taken(form.hash(), today, Caller.name(c))));
    c.status(201).json(of(id));
  }

  private void remove(Context c) {
    String id = c.pathParam("id");
    String photo = c.pathParam("photo");
    county
        .store()
        .write(
            Caller.name(c),
            "desk: remove photo from " + id,
            change -> {
              Stored<Photo> row =
                  change
                      .photos()
                      .find(photo)
                      .filter(p -> p.value().of() != Photo.Of.ENTRY)
                      .orElseThrow(
                          () ->
                              new Problem(
                                  Problem.Kind.NOT_FOUND, "there is no photo '" + photo + "'"));
              change.photos().delete(row);
            });
    c.json(of(id));
  }
}
