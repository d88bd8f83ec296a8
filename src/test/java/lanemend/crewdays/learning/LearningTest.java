package lanemend.crewdays.learning;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import lanemend.patching.LearnedFactor;
import lanemend.patching.LearnedFactor.Measure;
import lanemend.patching.LearnedFactors;
import lanemend.patching.Treatment;
import org.junit.jupiter.api.Test;

/**
 * What is proposed from done work, by examples and on simulated work of which the truth is known.
 */
class LearningTest {
  private static final double SD = 0.25;

  private static Proposal of(Learning learned, String key) {
    return learned.proposal(key).orElseThrow();
  }

  @Test
  void nothingIsLearnedWhereNothingWasRecorded() {
    assertEquals(List.of(), Learning.from(List.of(), LearnedFactors.NONE).proposals());
    // given a repair without hours, mix or cost
    DoneRepair bare =
        new DoneRepair(
            "D-1", "A", Treatment.HAND_PATCH, "SR 1", Seasons.MAY, null, null, null, null);
    Learning learned = Learning.from(List.of(bare), LearnedFactors.NONE);
    // then nothing is proposed and it is said why
    assertEquals(List.of(), learned.proposals());
    assertEquals(Map.of("no plan on record", 1), learned.without().get(Measure.MINUTES));
  }

  @Test
  void oneRecordMovesLittleAndSaysSo() {
    // given one patch that took twice its minutes
    Learning learned = Learning.from(List.of(Seasons.minutes("D-1", "A", 2)), LearnedFactors.NONE);
    Proposal p = of(learned, "minutes hand_patch A");
    // then the proposal lies between the plan and the record, with a wide interval
    assertTrue(p.proposed() > 1 && p.proposed() < 2, p.toString());
    assertTrue(p.high() / p.low() > 1.7, p.toString());
    assertEquals(1, p.records());
  }

  @Test
  void aFarOutRepairIsNamedAndCountsOnlyUpToTheFence() {
    Random random = new Random(4);
    List<DoneRepair> done =
        new ArrayList<>(Seasons.ofCrew("A", Treatment.HAND_PATCH, 40, 0.1, 0.2, random));
    double without = of(Learning.from(done, LearnedFactors.NONE), "minutes hand_patch").proposed();
    // given hours written as minutes: 60 times too many
    done.add(Seasons.minutes("D-slip", "A", 60));
    Learning learned = Learning.from(done, LearnedFactors.NONE);
    // then it is named, still counted, and moves the mean by a few percent only
    assertEquals(List.of("D-slip"), learned.pulled().stream().map(Learning.Pulled::id).toList());
    assertEquals(60, learned.pulled().get(0).ratio(), 1e-9);
    assertTrue(learned.pulled().get(0).countedAs() < 3);
    Proposal p = of(learned, "minutes hand_patch");
    assertEquals(41, p.records());
    assertEquals(without, p.proposed(), 0.04);
  }

  @Test
  void eachMeasureIsLearnedFromItsOwnNumbers() {
    List<DoneRepair> done = new ArrayList<>();
    for (int i = 0; i < 200; i++) {
      double jitter = i % 2 == 0 ? 0.9 : 1.1;
      done.add(
          Seasons.repair("D" + i, "A", Treatment.BLADE_PATCH, 1.3 * jitter, 1.1 * jitter, 0.8));
    }
    Learning learned = Learning.from(done, LearnedFactors.NONE);
    assertEquals(1.3, of(learned, "minutes blade_patch A").proposed(), 0.01);
    assertEquals(1.1, of(learned, "mix blade_patch").proposed(), 0.01);
    assertEquals(0.8, of(learned, "hour_cost A").proposed(), 0.01);
    assertTrue(of(learned, "minutes blade_patch A").clear());
    // mix of one crew is shown, not to be used
    assertFalse(of(learned, "mix blade_patch A").usable());
  }

  /** Textbook: the error of a mean of n falls as 1 / sqrt(n). */
  @Test
  void theErrorOfACrewAloneFallsWithTheRootOfItsRecords() {
    double truth = Math.exp(0.15 + SD * SD / 2);
    double[] rmse = new double[3];
    int[] ns = {16, 64, 256};
    int rounds = 150;
    for (int k = 0; k < ns.length; k++) {
      Random random = new Random(7);
      double sum = 0;
      for (int i = 0; i < rounds; i++) {
        List<DoneRepair> done = Seasons.ofCrew("A", Treatment.HAND_PATCH, ns[k], 0.15, SD, random);
        Proposal p = of(Learning.from(done, LearnedFactors.NONE), "minutes hand_patch A");
        double error = Math.log(p.proposed() / truth);
        sum += error * error;
      }
      rmse[k] = Math.sqrt(sum / rounds);
      // sampling error of an RMSE over 150 rounds is 6 %: theory within 15 %
      double theory = SD * Math.sqrt((1 + SD * SD / 2) / ns[k]);
      assertEquals(theory, rmse[k], 0.15 * theory, "n = " + ns[k]);
    }
    assertEquals(2, rmse[0] / rmse[1], 0.3);
    assertEquals(2, rmse[1] / rmse[2], 0.3);
  }

  /**
   * Twelve crews of one treatment whose true means stray by tau: pulled together they must be
   * nearer the truth than each alone and than all as one, and no nearer than Bayes' rule with tau
   * known, whose risk is tau2 V / (tau2 + V) a crew (James and Stein 1961; Efron and Morris 1975).
   */
  @Test
  void crewsPulledTogetherBeatEachAloneAndAllAsOne() {
    Random random = new Random(11);
    int crews = 12;
    int n = 6;
    double tau = 0.12;
    double v = SD * SD / n;
    double alone = 0;
    double asOne = 0;
    double pooled = 0;
    int inside = 0;
    int rounds = 60;
    for (int i = 0; i < rounds; i++) {
      List<DoneRepair> done = new ArrayList<>();
      double[] truth = new double[crews];
      for (int c = 0; c < crews; c++) {
        truth[c] = 0.1 + tau * random.nextGaussian();
        done.addAll(Seasons.ofCrew("C" + c, Treatment.HAND_PATCH, n, truth[c], SD, random));
      }
      Learning learned = Learning.from(done, LearnedFactors.NONE);
      double all = Math.log(of(learned, "minutes hand_patch").own());
      for (int c = 0; c < crews; c++) {
        Proposal p = of(learned, "minutes hand_patch C" + c);
        double lifted = truth[c] + SD * SD / 2;
        alone += Math.pow(Math.log(p.own()) - lifted, 2);
        asOne += Math.pow(all - lifted, 2);
        pooled += Math.pow(Math.log(p.proposed()) - lifted, 2);
        inside += p.low() <= Math.exp(lifted) && Math.exp(lifted) <= p.high() ? 1 : 0;
      }
    }
    double count = rounds * crews;
    double bayes = tau * tau * v / (tau * tau + v);
    assertEquals(v, alone / count, 0.15 * v);
    assertTrue(pooled < 0.8 * alone, "alone " + alone / count + ", pooled " + pooled / count);
    assertTrue(pooled < 0.8 * asOne, "as one " + asOne / count + ", pooled " + pooled / count);
    assertTrue(pooled / count > 0.9 * bayes && pooled / count < 1.35 * bayes, "" + pooled / bayes);
    assertEquals(0.90, inside / count, 0.03);
  }

  /** An agency as the sample's: three crews, few records, treatments and crews apart. */
  @Test
  void ninetyOfAHundredIntervalsHoldTheTruth() {
    Random random = new Random(5);
    Treatment[] treatments = {
      Treatment.HAND_PATCH, Treatment.BLADE_PATCH, Treatment.EDGE_REPAIR, Treatment.CRACK_TREATMENT
    };
    int inside = 0;
    int count = 0;
    int agencyInside = 0;
    int agencies = 0;
    for (int round = 0; round < 80; round++) {
      List<DoneRepair> done = new ArrayList<>();
      double[][] truth = new double[treatments.length][3];
      double mean = 0.1 * random.nextGaussian();
      double[] crew = {
        0.1 * random.nextGaussian(), 0.1 * random.nextGaussian(), 0.1 * random.nextGaussian()
      };
      int[][] ns = new int[treatments.length][3];
      for (int t = 0; t < treatments.length; t++) {
        double own = 0.15 * random.nextGaussian();
        for (int c = 0; c < 3; c++) {
          truth[t][c] = mean + own + crew[c] + 0.05 * random.nextGaussian();
          ns[t][c] = 2 + random.nextInt(20);
          done.addAll(Seasons.ofCrew("C" + c, treatments[t], ns[t][c], truth[t][c], SD, random));
        }
      }
      Learning learned = Learning.from(done, LearnedFactors.NONE);
      for (int t = 0; t < treatments.length; t++) {
        double sum = 0;
        for (int c = 0; c < 3; c++) {
          sum += ns[t][c] * truth[t][c];
          Proposal p = of(learned, LearnedFactor.key(Measure.MINUTES, treatments[t], "C" + c));
          inside += holds(p, truth[t][c]);
          count++;
        }
        Proposal p = of(learned, LearnedFactor.key(Measure.MINUTES, treatments[t], ""));
        agencyInside += holds(p, sum / (ns[t][0] + ns[t][1] + ns[t][2]));
        agencies++;
      }
    }
    assertEquals(0.90, inside / (double) count, 0.03);
    assertEquals(0.90, agencyInside / (double) agencies, 0.05);
  }

  private static int holds(Proposal p, double logMean) {
    double truth = Math.exp(logMean + SD * SD / 2);
    return p.low() <= truth && truth <= p.high() ? 1 : 0;
  }

  /** Learn, accept, plan by it, record, learn again: the truth is reached and not run past. */
  @Test
  void learningAgainFromPlansThatUseTheFactorDoesNotCompound() {
    Random random = new Random(3);
    LearnedFactors inForce = LearnedFactors.NONE;
    double truth = 1.25 * Math.exp(SD * SD / 2);
    List<DoneRepair> done = new ArrayList<>();
    for (int season = 0; season < 5; season++) {
      double factor = inForce.inForce(Measure.MINUTES, Treatment.HAND_PATCH, "A");
      for (DoneRepair r :
          Seasons.ofCrew("A", Treatment.HAND_PATCH, 60, Math.log(1.25), SD, random)) {
        DoneRepair.Planned p = r.planned();
        done.add(
            new DoneRepair(
                r.id() + season,
                "A",
                r.treatment(),
                r.routeId(),
                r.doneOn(),
                new DoneRepair.Planned(
                    p.basis(), p.on(), 2.0, 60 * factor, 1, factor, 500.0, 1, 100.0, 90.0),
                r.tonnes(),
                r.crewHours(),
                r.cost()));
      }
      Proposal next = of(Learning.from(done, inForce), "minutes hand_patch A");
      assertTrue(next.low() < truth && truth < next.high(), season + ": " + next);
      assertEquals(truth, next.proposed(), 2.5 * SD * truth / Math.sqrt(60.0 * (season + 1)));
      inForce = inForce.with(List.of(next.accepted("ann", Seasons.MAY)));
    }
  }
}
