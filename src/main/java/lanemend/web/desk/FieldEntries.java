package lanemend.web.desk;

import com.fasterxml.jackson.core.JsonProcessingException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.regex.Pattern;
import lanemend.store.Change;
import lanemend.store.EntryReceived;

/** How entries of phones are told from one another. */
final class FieldEntries {
  /** A UUID, RFC 9562. */
  private static final Pattern ID = Pattern.compile("[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}");

  private FieldEntries() {}

  static String id(String id) {
    if (!ID.matcher(id).matches()) {
      throw new Problem(
          Problem.Kind.BAD_REQUEST, "an entry's id is '" + id + "', expected a UUID in lower case");
    }
    return id;
  }

  /** In the order of the form's members, whatever order they were sent in. */
  static String json(Object form) {
    try {
      return Api.JSON.writeValueAsString(form);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("an entry cannot be written", e);
    }
  }

  static String digest(String json) {
    try {
      byte[] sha =
          MessageDigest.getInstance("SHA-256").digest(json.getBytes(StandardCharsets.UTF_8));
      return HexFormat.of().formatHex(sha);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }

  /** Another request with the same entry was quicker. */
  static final class CameBefore extends RuntimeException {
    private static final long serialVersionUID = 1L;
    private final transient EntryReceived entry;

    private CameBefore(EntryReceived entry) {
      this.entry = entry;
    }

    EntryReceived entry() {
      return entry;
    }
  }

  /**
   * Ends a write for an entry that is there by now.
   *
   * @throws CameBefore with what it became
   */
  static void refuseAgain(Change change, String id) {
    change
        .soFar()
        .received(id)
        .ifPresent(
            e -> {
              throw new CameBefore(e);
            });
  }

  static EntryReceived of(String id, Object form, String table, String key) {
    return new EntryReceived(id(id), digest(json(form)), table, key);
  }
}
