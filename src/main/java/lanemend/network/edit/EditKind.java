package lanemend.network.edit;

import java.util.Locale;

/** Kinds of edit. */
public enum EditKind {
  REALIGN,
  RECALIBRATE,
  SPLIT,
  MERGE,
  RENAME,
  RETIRE;

  /** The word as people write it. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}
