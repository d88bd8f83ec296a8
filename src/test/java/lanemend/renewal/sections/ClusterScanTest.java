package lanemend.renewal.sections;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import lanemend.renewal.repairs.Sampling;
import lanemend.renewal.sections.ScanSettings.Chance;
import org.junit.jupiter.api.Test;

class ClusterScanTest {
  private static final double CELL = 160.9344;

  @Test
  void theRatioAgreesWithAPublishedTable() {
    // Tango and Takahashi 2005 (Int. J. Health Geographics 4:11, table 1; read): cases and expected
    // of regions 14, 15; then 26, 27, 33; their ratios 20.1 and 29.7. C = 235 was inferred from the
    // three printed values, not read.
    assertEquals(20.1, ClusterScan.logRatio(14 + 21, 3.794 + 6.283, 235), 0.05);
    double e = 3.794 + 6.283 + 1.650 + 1.964 + 1.257;
    assertEquals(29.7, ClusterScan.logRatio(14 + 21 + 6 + 6 + 4, e, 235), 0.05);
    // All fifteen: 31.8
    double all = e + 5.534 + 2.346 + 4.142 + .696 + .045 + 1.419 + 2.109 + 1.485 + 2.312 + .256;
    assertEquals(31.8, ClusterScan.logRatio(85, all, 235), 0.05);
  }

  @Test
  void theRatioAtItsEdges() {
    // Computed by hand from the formula.
    assertEquals(2.220150379, ClusterScan.logRatio(10, 5, 50), 1e-9);
    assertEquals(16.094379124, ClusterScan.logRatio(10, 2, 10), 1e-9);
    assertEquals(0, ClusterScan.logRatio(3, 5, 50));
  }

  /** A route of two-lane cells with this much expected in each lane; bad cells times a factor. */
  private static Strip strip(
      String id,
      int cells,
      double expected,
      double kappa,
      int badFrom,
      int badTo,
      double factor,
      SplittableRandom random) {
    Sampling sampling = new Sampling(random);
    double[] edges = new double[cells + 1];
    int[] repairs = new int[cells];
    double[] mean = new double[cells];
    double[] years = new double[cells];
    int[] start = new int[cells + 1];
    double[] lane = new double[2 * cells];
    double[] shape = new double[2 * cells];
    for (int j = 0; j < cells; j++) {
      edges[j + 1] = (j + 1) * CELL;
      start[j + 1] = 2 * (j + 1);
      mean[j] = 2 * expected;
      years[j] = 20;
      for (int l = 2 * j; l < 2 * j + 2; l++) {
        lane[l] = expected;
        shape[l] = kappa;
        double z = Double.isInfinite(kappa) ? 1 : sampling.gamma(kappa) / kappa;
        double rate = expected * z * (j >= badFrom && j < badTo ? factor : 1);
        repairs[j] += (int) sampling.poisson(rate);
      }
    }
    return new Strip(id, edges, repairs, mean, years, start, lane, shape);
  }

  private static ScanSettings settings(Chance chance, int replicates) {
    return new ScanSettings(3 * CELL, 30 * CELL, chance, replicates, 20, 0.05, 11);
  }

  @Test
  void aPlantedStretchIsFoundAndItsEndsAreClose() {
    // Given 20 quiet routes of 100 cells and one with cells 40 to 55 four times as bad
    SplittableRandom random = new SplittableRandom(1);
    List<Strip> strips = new ArrayList<>();
    for (int r = 0; r < 20; r++) {
      strips.add(strip("quiet " + r, 100, 0.5, 1.5, 0, 0, 1, random));
    }
    strips.add(strip("bad", 100, 0.5, 1.5, 40, 55, 4, random));
    // when scanned
    List<Cluster> flagged =
        ClusterScan.scan(strips, settings(Chance.FRAILTY, 1999)).stream()
            .filter(Cluster::flagged)
            .toList();
    // then just that stretch is flagged, its ends within three cells
    assertEquals(1, flagged.size());
    Cluster c = flagged.get(0);
    assertEquals("bad", c.routeId());
    assertEquals(40 * CELL, c.fromAlongM(), 3 * CELL);
    assertEquals(55 * CELL, c.toAlongM(), 3 * CELL);
    assertTrue(c.repairs() > 2 * c.expected());
    assertTrue(c.pValue() <= 0.002);
  }

  @Test
  void quietCountiesAreFlaggedNoMoreOftenThanTheLineAllows() {
    // Given 100 counties of ten routes with frailty but no cluster, and the false-discovery line at
    // 5 %: with nothing to find, any flag is false, so at most 5 % of counties may have one
    int withFlag = 0;
    double pSum = 0;
    int low = 0;
    for (int s = 0; s < 100; s++) {
      SplittableRandom random = new SplittableRandom(100 + s);
      List<Strip> strips = new ArrayList<>();
      for (int r = 0; r < 10; r++) {
        strips.add(strip("r" + r, 60, 0.6, 1.0, 0, 0, 1, random));
      }
      List<Cluster> found = ClusterScan.scan(strips, settings(Chance.FRAILTY, 999));
      withFlag += found.stream().anyMatch(Cluster::flagged) ? 1 : 0;
      for (Cluster c : found) {
        if (c.rank() == 1) {
          pSum += c.pValue();
          low += c.pValue() <= 0.1 ? 1 : 0;
        }
      }
    }
    // 5 expected; 10 is the 0.99 quantile of a binomial of 100 and 0.05
    assertTrue(withFlag <= 10, withFlag + " counties flagged");
    // and p-values are even: mean 0.5 (1000 values, standard error 0.009), a tenth below 0.1
    assertEquals(0.5, pSum / 1000, 0.03);
    assertEquals(100, low, 30);
  }

  @Test
  void poissonChanceTakesFrailtyForClusters() {
    // Given counties with strong frailty and no cluster, when chance is Kulldorff's plain Poisson
    int withFlag = 0;
    for (int s = 0; s < 20; s++) {
      SplittableRandom random = new SplittableRandom(300 + s);
      List<Strip> strips = new ArrayList<>();
      for (int r = 0; r < 10; r++) {
        strips.add(strip("r" + r, 60, 0.6, 0.5, 0, 0, 1, random));
      }
      withFlag +=
          ClusterScan.scan(strips, settings(Chance.POISSON, 199)).stream()
                  .anyMatch(Cluster::flagged)
              ? 1
              : 0;
    }
    // then most are flagged falsely: the reason why frailty is the standard
    assertTrue(withFlag >= 10, withFlag + " of 20");
  }

  @Test
  void theSameSeedGivesTheSameClusters() {
    SplittableRandom random = new SplittableRandom(5);
    List<Strip> strips = List.of(strip("a", 80, 0.5, 1, 20, 30, 3, random));
    assertEquals(
        ClusterScan.scan(strips, settings(Chance.FRAILTY, 199)),
        ClusterScan.scan(strips, settings(Chance.FRAILTY, 199)));
  }

  @Test
  void sectionsByBothWaysFindThePlantedStretch() {
    // Given a route with 20 bad cells between good ones
    Strip strip = strip("bad", 100, 0.5, 2, 40, 60, 6, new SplittableRandom(6));
    Sectioning cut = Sectioning.of(strip, Sectioning.Settings.STANDARD);
    for (List<Section> sections : List.of(cut.byDifference(), cut.byPartition())) {
      // then every section is at least half a mile and together they are the route
      double along = 0;
      for (Section s : sections) {
        assertEquals(along, s.fromAlongM(), 1e-6);
        assertTrue(s.lengthM() >= 804.6);
        along = s.toAlongM();
      }
      assertEquals(100 * CELL, along, 1e-6);
      // and the worst of them lies on the planted cells, ends within three cells
      Section worst =
          sections.stream()
              .max(java.util.Comparator.comparingDouble(s -> s.rate().value()))
              .orElseThrow();
      assertTrue(worst.firstCell() >= 37 && worst.endCell() <= 63, worst.toString());
    }
    Section bad =
        cut.byPartition().stream()
            .filter(s -> s.firstCell() <= 50 && s.endCell() > 50)
            .findFirst()
            .orElseThrow();
    assertEquals(40, bad.firstCell(), 3);
    assertEquals(60, bad.endCell(), 3);
  }
}
