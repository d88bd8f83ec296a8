package lanemend.renewal.exposure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * What happened to each cell, packed for fitting: a county has a million cells. A cell has spells
 * (from one age to another, in years since surfacing, while records were kept) and repairs (age and
 * tonnes). Immutable; built by {@link Builder}.
 */
public final class CellHistories {
  private final List<Cell> cells;
  private final List<String> families;
  private final int[] family;
  private final double[] share;
  private final double[] ageNow;
  private final double[][] covariates;
  private final int[] spellStart;
  private final double[] fromAge;
  private final double[] toAge;
  private final int[] repairStart;
  private final double[] repairAge;
  private final double[] repairTonnes;
  private final long[] repairDay;
  private final int[] spellOfRepair;

  private CellHistories(Builder b) {
    cells = List.copyOf(b.cells);
    families = List.copyOf(b.families);
    int n = cells.size();
    family = Arrays.copyOf(b.family, n);
    share = Arrays.copyOf(b.share, n);
    ageNow = Arrays.copyOf(b.ageNow, n);
    covariates = b.covariates.toArray(double[][]::new);
    b.spellStart = Arrays.copyOf(b.spellStart, n + 1);
    b.repairStart = Arrays.copyOf(b.repairStart, n + 1);
    b.spellStart[n] = b.spells;
    b.repairStart[n] = b.repairs;
    spellStart = b.spellStart;
    repairStart = b.repairStart;
    fromAge = Arrays.copyOf(b.fromAge, b.spells);
    toAge = Arrays.copyOf(b.toAge, b.spells);
    repairAge = Arrays.copyOf(b.repairAge, b.repairs);
    repairTonnes = Arrays.copyOf(b.repairTonnes, b.repairs);
    repairDay = Arrays.copyOf(b.repairDay, b.repairs);
    spellOfRepair = Arrays.copyOf(b.spellOfRepair, b.repairs);
  }

  public int size() {
    return cells.size();
  }

  public Cell cell(int i) {
    return cells.get(i);
  }

  /** Names of the families, by the number {@link #family(int)} gives. */
  public List<String> families() {
    return families;
  }

  public int family(int i) {
    return family[i];
  }

  /** Length as a share of a whole cell; the last cell of a route is shorter. */
  public double share(int i) {
    return share[i];
  }

  /** Years since the last surfacing at the end of the records, or NaN where it is not known. */
  public double ageNow(int i) {
    return ageNow[i];
  }

  /** Covariates of a cell, centred and scaled; do not change the array. */
  public double[] covariates(int i) {
    return covariates[i];
  }

  /** First spell of cell {@code i}; its spells end before {@code firstSpell(i + 1)}. */
  public int firstSpell(int i) {
    return spellStart[i];
  }

  public double fromAge(int spell) {
    return fromAge[spell];
  }

  public double toAge(int spell) {
    return toAge[spell];
  }

  /** First repair of cell {@code i}; its repairs end before {@code firstRepair(i + 1)}. */
  public int firstRepair(int i) {
    return repairStart[i];
  }

  /** Repairs counted in cell {@code i}. */
  public int repairs(int i) {
    return repairStart[i + 1] - repairStart[i];
  }

  public double repairAge(int repair) {
    return repairAge[repair];
  }

  /** Mix placed, tonnes, or NaN where it was not recorded. */
  public double repairTonnes(int repair) {
    return repairTonnes[repair];
  }

  /** The day of a repair, as {@link java.time.LocalDate#toEpochDay()}. */
  public long repairDay(int repair) {
    return repairDay[repair];
  }

  /** The spell a repair fell in. */
  public int spellOf(int repair) {
    return spellOfRepair[repair];
  }

  /** Years watched in cell {@code i}, over all its spells. */
  public double yearsWatched(int i) {
    double years = 0;
    for (int s = spellStart[i]; s < spellStart[i + 1]; s++) {
      years += toAge[s] - fromAge[s];
    }
    return years;
  }

  /** Repairs counted in all cells. */
  public int allRepairs() {
    return repairAge.length;
  }

  /**
   * Collects cells one after another; spells belong to the cell added last, repairs to the spell
   * added last.
   */
  public static final class Builder {
    private final List<Cell> cells = new ArrayList<>();
    private final List<String> families;
    private final List<double[]> covariates = new ArrayList<>();
    private int[] family = new int[64];
    private double[] share = new double[64];
    private double[] ageNow = new double[64];
    private int[] spellStart = new int[65];
    private int[] repairStart = new int[65];
    private double[] fromAge = new double[64];
    private double[] toAge = new double[64];
    private double[] repairAge = new double[64];
    private double[] repairTonnes = new double[64];
    private long[] repairDay = new long[64];
    private int[] spellOfRepair = new int[64];
    private int spells;
    private int repairs;

    /** Families are told by their place in {@code families}. */
    public Builder(List<String> families) {
      this.families = families;
    }

    /** Starts the next cell; {@code ageNow} is NaN where the last surfacing is not known. */
    public void cell(Cell cell, int ofFamily, double ofShare, double ageAtEnd, double[] values) {
      int n = cells.size();
      if (n == family.length) {
        int grown = 2 * n;
        family = Arrays.copyOf(family, grown);
        share = Arrays.copyOf(share, grown);
        ageNow = Arrays.copyOf(ageNow, grown);
        spellStart = Arrays.copyOf(spellStart, grown + 1);
        repairStart = Arrays.copyOf(repairStart, grown + 1);
      }
      cells.add(cell);
      covariates.add(values);
      family[n] = ofFamily;
      share[n] = ofShare;
      ageNow[n] = ageAtEnd;
      spellStart[n] = spells;
      repairStart[n] = repairs;
    }

    /**
     * A span of age the records cover.
     *
     * @throws IllegalArgumentException unless {@code 0 <= from <= to}
     */
    public void spell(double from, double to) {
      if (!(from >= 0 && from <= to)) {
        throw new IllegalArgumentException("a spell runs from age " + from + " to " + to);
      }
      if (spells == fromAge.length) {
        fromAge = Arrays.copyOf(fromAge, 2 * spells);
        toAge = Arrays.copyOf(toAge, 2 * spells);
      }
      fromAge[spells] = from;
      toAge[spells++] = to;
    }

    /** A repair within the spell added last. */
    public void repair(double age, double tonnes, long epochDay) {
      if (!(age > 0)) {
        throw new IllegalArgumentException("a repair at age " + age + "; ages start above 0");
      }
      if (repairs == repairAge.length) {
        repairAge = Arrays.copyOf(repairAge, 2 * repairs);
        repairTonnes = Arrays.copyOf(repairTonnes, 2 * repairs);
        repairDay = Arrays.copyOf(repairDay, 2 * repairs);
        spellOfRepair = Arrays.copyOf(spellOfRepair, 2 * repairs);
      }
      spellOfRepair[repairs] = spells - 1;
      repairAge[repairs] = age;
      repairTonnes[repairs] = tonnes;
      repairDay[repairs++] = epochDay;
    }

    /** The histories; the builder is used up. */
    public CellHistories build() {
      return new CellHistories(this);
    }
  }
}
