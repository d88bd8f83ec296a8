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

  private final CellHistories histories;
  private final FamilyFit[] fits;
  private final boolean[] borrowed;
  private final TonsModel tons;

  private RepairModel(CellHistories histories, FamilyFit[] fits, boolean[] borrowed) {
    this.histories = histories;
    this.fits = fits;
    this.borrowed = borrowed;
    this.tons = TonsModel.fit(histories);
  }

  /**
   * Fits every family.
   *
   * @throws IllegalArgumentException when no repair at a known age was recorded anywhere
   */
  public static RepairModel fit(CellHistories histories, FitOptions options) {
    int families = histories.families().size();
    int[] count = new int[families];
    int[] repairs = new int[families];
    for (int i = 0; i < histories.size(); i++) {
      count[histories.family(i)]++;
      repairs[histories.family(i)] += histories.repairs(i);
    }
    FamilyFit all = null;
    if (families == 0 || Arrays.stream(repairs).anyMatch(r -> r < ENOUGH)) {
      int[] every = IntStream.range(0, histories.size()).toArray();
      all = PowerLawFitter.fit("all roads", histories, every, options);
    }
    int[][] members = new int[families][];
    for (int f = 0; f < families; f++) {
      members[f] = new int[count[f]];
    }
    int[] at = new int[families];
    for (int i = 0; i < histories.size(); i++) {
      int f = histories.family(i);
      members[f][at[f]++] = i;
    }
    FamilyFit[] fits = new FamilyFit[families];
    boolean[] borrowed = new boolean[families];
    for (int f = 0; f < families; f++) {
      borrowed[f] = repairs[f] < ENOUGH;
      fits[f] =
          borrowed[f]
              ? all
              : PowerLawFitter.fit(histories.families().get(f), histories, members[f], options);
    }
    return new RepairModel(histories, fits, borrowed);
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

  /** Repairs an average cell of cell {@code i}'s family would have had in its watched years. */
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
    return mu;
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
    return sum;
  }
}
