package lanemend.web.desk;

import com.fasterxml.jackson.annotation.JsonAnyGetter;
import com.fasterxml.jackson.annotation.JsonProperty;
import com.fasterxml.jackson.annotation.JsonPropertyOrder;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * Why a request was not done, as problem details of RFC 9457: {@code type} names the kind of
 * problem within this desk, {@code detail} is one sentence for the user.
 */
final class Problem extends RuntimeException {
  private static final long serialVersionUID = 1L;

  /** Kinds of problem; each is a {@code type} of the form {@code /problems/bad-place}. */
  enum Kind {
    NOT_FOUND(404, "There is no such thing"),
    NOT_READY(409, "Something has to come first"),
    NO_LONGER(409, "It cannot be done as things stand"),
    BAD_REQUEST(400, "The request cannot be read"),
    BAD_FILTER(400, "The filter cannot be read"),
    BAD_PLACE(422, "The place is not clear"),
    BAD_VALUE(422, "A value cannot be taken"),
    STALE(412, "Somebody else changed this meanwhile"),
    VERSION_MISSING(428, "The version that was read must be given"),
    FOREIGN(403, "The desk answers its own pages only"),
    SIGN_IN(401, "Nobody is signed in"),
    FORBIDDEN(403, "This account may not do that"),
    TOO_LARGE(413, "The request is too large"),
    TOO_MANY(429, "Too many attempts"),
    // No 507: phones keep an entry that is answered 503 and send it again.
    NO_ROOM(503, "The desk's disk is full"),
    FAULT(500, "The desk made a mistake");

    final int status;
    final String title;

    Kind(int status, String title) {
      this.status = status;
      this.title = title;
    }

    String type() {
      return "/problems/" + name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
    }
  }

  private final Kind kind;
  private final transient Map<String, Object> more = new LinkedHashMap<>();

  Problem(Kind kind, String detail) {
    super(detail);
    this.kind = kind;
  }

  /** Adds a member beside those of the standard. */
  Problem with(String name, Object value) {
    more.put(name, value);
    return this;
  }

  /** A member given by {@link #with}, or null. */
  Object member(String name) {
    return more.get(name);
  }

  int status() {
    return kind.status;
  }

  Body body() {
    return new Body(kind.type(), kind.title, kind.status, getMessage(), more);
  }

  /** The problem as it is sent. */
  @JsonPropertyOrder({"type", "title", "status", "detail"})
  record Body(
      String type,
      String title,
      int status,
      String detail,
      @JsonProperty(access = JsonProperty.Access.WRITE_ONLY) Map<String, Object> more) {
    @JsonAnyGetter
    Map<String, Object> members() {
      return more;
    }
  }
}
