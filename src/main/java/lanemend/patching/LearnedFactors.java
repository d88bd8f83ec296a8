package lanemend.patching;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import lanemend.patching.LearnedFactor.Measure;

/** The learned factors in force, at most one about each thing. */
public record LearnedFactors(List<LearnedFactor> all) {
  /** Nothing was learned: every plan is as designed. */
  public static final LearnedFactors NONE = new LearnedFactors(List.of());

  public LearnedFactors {
    all = List.copyOf(all);
    if (all.stream().map(LearnedFactor::key).distinct().count() < all.size()) {
      throw new IllegalArgumentException("two learned factors are about one thing: " + all);
    }
  }

  /**
   * The factor about exactly this.
   *
   * @param treatment null for {@link Measure#HOUR_COST}
   * @param crewId empty for the agency's
   */
  public Optional<LearnedFactor> of(Measure measure, Treatment treatment, String crewId) {
    String key = LearnedFactor.key(measure, treatment, crewId);
    return all.stream().filter(f -> f.key().equals(key)).findFirst();
  }

  /** The factor a crew's plan is multiplied by: its own, else the agency's, else 1. */
  public double inForce(Measure measure, Treatment treatment, String crewId) {
    return of(measure, treatment, crewId)
        .or(() -> of(measure, treatment, ""))
        .map(LearnedFactor::factor)
        .orElse(1.0);
  }

  /** The agency's factors of one treatment only. */
  LearnedFactors only(Treatment treatment) {
    return new LearnedFactors(
        all.stream().filter(f -> f.treatment() == treatment && f.crewId().isEmpty()).toList());
  }

  /** The factor of a measure among those of {@link #only one treatment}. */
  Optional<LearnedFactor> one(Measure measure) {
    return all.stream().filter(f -> f.measure() == measure).findFirst();
  }

  /** These with others in the place of those about the same. */
  public LearnedFactors with(List<LearnedFactor> more) {
    List<String> keys = more.stream().map(LearnedFactor::key).toList();
    List<LearnedFactor> kept =
        new ArrayList<>(all.stream().filter(f -> !keys.contains(f.key())).toList());
    kept.addAll(more);
    return new LearnedFactors(kept);
  }
}
