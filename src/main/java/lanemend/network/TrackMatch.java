package lanemend.network;

import java.time.Duration;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** A patrol's track on the roads. Immutable; safe for several threads. */
public final class TrackMatch {
  /** Beside a driven stretch a place may lie this far along the road and still be part of it. */
  private static final double BESIDE_M = 40;

  /**
   * What speaks for a place of a route having been driven.
   *
   * @param from first moment, or null without times
   * @param belief 0 to 1
   */
  record Cover(
      double lowM, double highM, Instant from, Instant to, double belief, boolean rising) {}

  /**
   * Where the track breaks off.
   *
   * @param afterFix number of the last fix before the break, from 0
   * @param why a sentence
   */
  public record Break(int afterFix, String why) {}

  private final List<DrivenStretch> stretches;
  private final List<Break> breaks;
  private final int offRoad;
  private final int stray;
  private final double errorM;
  private final double aroundSeconds;
  private final Map<String, List<Cover>> covers;

  TrackMatch(
      List<DrivenStretch> stretches,
      List<Break> breaks,
      int offRoad,
      int stray,
      double errorM,
      double aroundSeconds,
      Map<String, List<Cover>> covers) {
    this.stretches = List.copyOf(stretches);
    this.breaks = List.copyOf(breaks);
    this.offRoad = offRoad;
    this.stray = stray;
    this.errorM = errorM;
    this.aroundSeconds = aroundSeconds;
    this.covers = new HashMap<>(covers);
  }

  /** What was driven, in order of driving. */
  public List<DrivenStretch> stretches() {
    return stretches;
  }

  /** Where fixes are missing or do not hang together. */
  public List<Break> breaks() {
    return breaks;
  }

  /** Fixes with no road near them. */
  public int offRoad() {
    return offRoad;
  }

  /** Fixes that no drive could have reached, left out. */
  public int stray() {
    return stray;
  }

  /** The fixes' own standard deviation across the road, metres, worked out from the track. */
  public double errorM() {
    return errorM;
  }

  /**
   * Belief that a place was driven past, 0 to 1.
   *
   * @param at when, or null for at any time of the track
   */
  public double belief(String routeId, double alongM, Instant at) {
    double most = 0;
    for (Cover c : covers.getOrDefault(routeId, List.of())) {
      if (holds(c, alongM, at)) {
        most = Math.max(most, c.belief());
      }
    }
    return most;
  }

  private boolean holds(Cover c, double alongM, Instant at) {
    if (alongM < c.lowM() - BESIDE_M || alongM > c.highM() + BESIDE_M) {
      return false;
    }
    return at == null || (c.from() != null && secondsOff(c, at) <= aroundSeconds);
  }

  private static double secondsOff(Cover c, Instant at) {
    if (at.isBefore(c.from())) {
      return Duration.between(at, c.from()).toMillis() / 1000.0;
    }
    return at.isAfter(c.to()) ? Duration.between(c.to(), at).toMillis() / 1000.0 : 0;
  }

  /**
   * True when a place was driven past towards growing along, false towards falling along; empty
   * when it was not driven past, or both ways.
   */
  public Optional<Boolean> rising(String routeId, double alongM, Instant at) {
    boolean up = false;
    boolean down = false;
    for (Cover c : covers.getOrDefault(routeId, List.of())) {
      // What was nowhere near clear says nothing about the direction.
      if (c.belief() > 0.5 && c.highM() > c.lowM() && holds(c, alongM, at)) {
        up |= c.rising();
        down |= !c.rising();
      }
    }
    return up == down ? Optional.empty() : Optional.of(up);
  }
}
