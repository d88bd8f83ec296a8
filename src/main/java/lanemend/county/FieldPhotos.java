package lanemend.county;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import lanemend.inventory.PastPatch;
import lanemend.store.Change;
import lanemend.store.Photo;
import lanemend.store.Snapshot;
import lanemend.store.Stored;

/** Photos of defects and of work done on them. */
public final class FieldPhotos {

  /**
   * A photo as somebody gives it.
   *
   * @param hash of a file that has arrived
   * @param on or null when not known
   */
  public record Taken(String hash, LocalDate on, String by) {}

  private FieldPhotos() {}

  /**
   * Says that a photo shows something; said twice it is said once.
   *
   * @throws NotReady when its file has not arrived
   */
  public static void add(Change change, Photo.Of of, String ownerId, Taken taken) {
    if (!change.soFar().hasPhotoContent(taken.hash())) {
      throw new NotReady("the photo " + taken.hash() + " has not arrived: send it first");
    }
    if (hashes(change.soFar().photosOf(of, ownerId)).contains(taken.hash())) {
      return;
    }
    change
        .photos()
        .insert(
            new Photo(
                UUID.randomUUID().toString(),
                taken.hash(),
                of,
                ownerId,
                taken.on(),
                taken.by(),
                ""));
  }

  private static Set<String> hashes(List<Stored<Photo>> photos) {
    Set<String> hashes = new HashSet<>();
    photos.forEach(p -> hashes.add(p.value().hash()));
    return hashes;
  }

  /** Gives the photos of a defect that turned out to be another one to that. */
  static void move(Change change, String fromDefect, String toDefect) {
    Set<String> there = hashes(change.soFar().photosOf(Photo.Of.DEFECT, toDefect));
    for (Stored<Photo> p : change.soFar().photosOf(Photo.Of.DEFECT, fromDefect)) {
      if (!there.contains(p.value().hash())) {
        change.photos().update(p, p.value().movedTo(Photo.Of.DEFECT, toDefect));
      }
    }
  }

  /** Gives the photos of a phone's entry to the defect it became. */
  public static void place(Change change, String entryId, String defectId) {
    for (Stored<Photo> p : change.soFar().photosOf(Photo.Of.ENTRY, entryId)) {
      change.photos().update(p, p.value().movedTo(Photo.Of.DEFECT, defectId));
    }
  }

  /** Photos of a defect and of all work recorded on it, in that order. */
  public static List<Stored<Photo>> of(Snapshot store, County county, String defectId) {
    List<Stored<Photo>> all = new ArrayList<>(store.photosOf(Photo.Of.DEFECT, defectId));
    Set<String> defects = new HashSet<>();
    county.defects().forEach(d -> defects.add(d.id()));
    for (PastPatch patch : county.patches()) {
      if (DoneWork.defectOf(patch, defects::contains).filter(defectId::equals).isPresent()) {
        all.addAll(store.photosOf(Photo.Of.PATCH, patch.id()));
      }
    }
    return all;
  }
}
