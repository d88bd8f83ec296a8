package lanemend.store;

import java.time.LocalDate;

/**
 * A photo of something; its bytes are a {@link PhotoContent}.
 *
 * @param hash of the bytes
 * @param ownerId id of the defect, patch or phone's entry it shows
 * @param takenOn or null when not known
 */
public record Photo(
    String id, String hash, Of of, String ownerId, LocalDate takenOn, String takenBy, String note) {

  /** What a photo shows. */
  public enum Of {
    DEFECT,
    PATCH,
    ENTRY
  }

  /** The same photo, of something else. */
  public Photo movedTo(Of what, String id) {
    return new Photo(this.id, hash, what, id, takenOn, takenBy, note);
  }
}
