package lanemend.accounts;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** What somebody does at the agency; an account has one or more. */
public enum Role {
  /** Drives the roads and records what is found. */
  PATROL,
  /** Says what is repaired when, and by whom. */
  PLANNER,
  /** Does the work and records it. */
  CREW,
  /** Decides on sections for resurfacing. */
  ENGINEER,
  /** Looks after accounts; changes nothing of the county. */
  ADMIN;

  /** As it is written: {@code planner}. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The role a word stands for. */
  public static Optional<Role> of(String word) {
    return Arrays.stream(values()).filter(r -> r.word().equalsIgnoreCase(word.strip())).findFirst();
  }

  /** All words, for a sentence. */
  public static String words() {
    return Arrays.stream(values()).map(Role::word).collect(Collectors.joining(", "));
  }
}
