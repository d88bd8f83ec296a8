package lanemend.renewal.repairs;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import lanemend.renewal.exposure.CellHistories;

/**
 * The fitted repair model of all families. A family with too few repairs for its own fit takes that
 * of all roads together.
 */
public final class RepairModel {
  /** Fewest repairs a family is fitted from on its own (common practice, no source). */
  public static final int ENOUGH = 30;

  /** Turns of families and levels; each moves the other by less than a tenth of the turn before. */
  private static final int ROUNDS = 6;

  /**
   * What was fitted: with the histories and the weak sections' cells the whole model.
   *
   * @param families one for each family of the histories, in their order
   * @param sections one for each weak section, in their order
   */
  public record Fitted(List<FamilyFit> families, List<SectionLevel> sections) {
    public Fitted {
      families = List.copyOf(families);
      sections = List.copyOf(sections);
    }
  }

  /**
   * A weak section's level.
   *
   * @param level multiple of its families' rate
   * @param logVariance variance of its logarithm
   */
  public record SectionLevel(double level, double logVariance) {}

  private final CellHistories histories;
  private final FamilyFit[] fits;
  private final boolean[] borrowed;
  private final WeakSections weak;
  private final TonsModel tons;

  private RepairModel(
      CellHistories histories, FamilyFit[] fits, boolean[] borrowed, WeakSections weak) {
    this.histories = histories;
    this.fits = fits;
    this.borrowed = borrowed;
    this.weak = weak;
    this.tons = TonsModel.fit(histories);
  }

  /**
   * Fits every family.
   *
   * @throws IllegalArgumentException when no repair at a known age was recorded anywhere
   */
  public static RepairModel fit(CellHistories histories, FitOptions options) {
    return fit(histories, options, List.of());
  }

  /**
   * Fits every family and a level for each weak section, turn about until they settle.
   *
   * @param weakSections cells of each stretch that has a level of its own; stretches do not overlap
   * @throws IllegalArgumentException when no repair at a known age was recorded anywhere
   */
  public static RepairModel fit(
      CellHistories histories, FitOptions options, List<int[]> weakSections) {
    int[][] members = members(histories);
    boolean[] borrowed = borrowed(histories, members);
    boolean anyBorrows = members.length == 0;
    for (boolean b : borrowed) {
      anyBorrows |= b;
    }
    WeakSections weak = new WeakSections(histories.size(), weakSections);
    FamilyFit[] fits = new FamilyFit[members.length];
    int rounds = weakSections.isEmpty() ? 1 : ROUNDS;
    for (int round = 0; round < rounds; round++) {
      FamilyFit all = null;
      if (anyBorrows) {
        int[] every = IntStream.range(0, histories.size()).toArray();
        all = PowerLawFitter.fit("all roads", histories, every, weak, options);
      }
      for (int f = 0; f < members.length; f++) {
        fits[f] =
            borrowed[f]
                ? all
                : PowerLawFitter.fit(
                    histories.families().get(f), histories, members[f], weak, options);
      }
      weak.update(histories, fits);
    }
    return new RepairModel(histories, fits, borrowed, weak);
  }

  /**
   * The model that was fitted to these histories before.
   *
   * @param weakSections as they were given to {@link #fit}
   * @throws IllegalArgumentException when what was fitted is not of these families and sections
   */
  public static RepairModel of(CellHistories histories, Fitted fitted, List<int[]> weakSections) {
    if (fitted.families().size() != histories.families().size()
        || fitted.sections().size() != weakSections.size()) {
      throw new IllegalArgumentException(
          "%d families and %d weak sections were fitted, there are %d and %d"
              .formatted(
                  fitted.families().size(),
                  fitted.sections().size(),
                  histories.families().size(),
                  weakSections.size()));
    }
    return new RepairModel(
        histories,
        fitted.families().toArray(FamilyFit[]::new),
        borrowed(histories, members(histories)),
        new WeakSections(histories.size(), weakSections, fitted.sections()));
  }

  /** What {@link #of} makes this model from again. */
  public Fitted fitted() {
    return new Fitted(List.of(fits), weak.levels());
  }

  private static boolean[] borrowed(CellHistories histories, int[][] members) {
    boolean[] borrowed = new boolean[members.length];
    for (int f = 0; f < members.length; f++) {
      borrowed[f] = Arrays.stream(members[f]).map(histories::repairs).sum() < ENOUGH;
    }
    return borrowed;
  }

  private static int[][] members(CellHistories histories) {
    int[] count = new int[histories.families().size()];
    for (int i = 0; i < histories.size(); i++) {
      count[histories.family(i)]++;
    }
    int[][] members = new int[count.length][];
    for (int f = 0; f < count.length; f++) {
      members[f] = new int[count[f]];
    }
    int[] at = new int[count.length];
    for (int i = 0; i < histories.size(); i++) {
      int f = histories.family(i);
      members[f][at[f]++] = i;
    }
    return members;
  }

  public CellHistories histories() {
    return histories;
  }

  public TonsModel tons() {
    return tons;
  }

  /** The fit used for a family, its own or that of all roads. */
  public FamilyFit familyFit(int family) {
    return fits[family];
  }

  /** Families that had too few repairs and take the fit of all roads. */
  public List<String> borrowing() {
    List<String> names = new ArrayList<>();
    for (int f = 0; f < fits.length; f++) {
      if (borrowed[f]) {
        names.add(histories.families().get(f));
      }
    }
    return names;
  }

  /** How many times its family's rate the weak section of a cell has; 1 outside weak sections. */
  public double level(int i) {
    return weak.of(i);
  }

  WeakSections weak() {
    return weak;
  }

  /**
   * Repairs an average cell of cell {@code i}'s family, and of its weak section if it lies on one,
   * would have had in its watched years.
   */
  public double familyExpected(int i) {
    FamilyFit fit = fits[histories.family(i)];
    double mu = 0;
    for (int s = histories.firstSpell(i); s < histories.firstSpell(i + 1); s++) {
      mu +=
          fit.expected(
              histories.fromAge(s),
              histories.toAge(s),
              histories.share(i),
              histories.covariates(i));
    }
    return mu * weak.of(i);
  }

  /** What cell {@code i}'s history says, shrunk to its family. */
  public CellOutlook outlook(int i) {
    double mu = familyExpected(i);
    double kappa = fits[histories.family(i)].frailtyShape();
    int n = histories.repairs(i);
    if (Double.isInfinite(kappa)) {
      return new CellOutlook(n, mu, 1, 1);
    }
    return new CellOutlook(n, mu, (kappa + n) / (kappa + mu), kappa / (kappa + mu));
  }

  /** Derivative by ln b of {@link #familyExpected}. */
  double familyExpectedByLogShape(int i) {
    FamilyFit fit = fits[histories.family(i)];
    double sum = 0;
    for (int s = histories.firstSpell(i); s < histories.firstSpell(i + 1); s++) {
      sum +=
          fit.expectedByLogShape(
              histories.fromAge(s),
              histories.toAge(s),
              histories.share(i),
              histories.covariates(i));
    }
    return sum * weak.of(i);
  }
}
