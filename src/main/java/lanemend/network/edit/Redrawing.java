package lanemend.network.edit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import lanemend.network.CalibrationPost;
import lanemend.network.Candidate;
import lanemend.network.CenterlinePart;
import lanemend.network.Edition;
import lanemend.network.Locator;
import lanemend.network.Network;
import lanemend.network.PiecewiseMileposts;
import lanemend.network.RoadClass;
import lanemend.network.Route;
import lanemend.network.SnapHint;

/**
 * Finds a road's places again on a line that draws it anew: places of the old line, one every so
 * many metres and at every post, are set square on the new line; of these the most that keep their
 * order are kept, and between them along runs straight.
 */
final class Redrawing {
  /** A new line farther than this from the old one may be another road. */
  static final double REACH_M = 60;

  private static final double STEP_M = 50;
  private static final int MOST_SAMPLES = 3_000;

  /**
   * Places kept lie at least this far apart on both lines, so that no stretch shrinks to nothing.
   */
  private static final double APART_M = 0.5;

  private final Route old;
  private final Locator onNew;
  private final String newId;

  private record Sample(double oldM, List<Candidate> feet) {}

  private record Foot(int sample, double oldM, double newM, double away) {}

  /**
   * @param parts the new line of the stretch, with the along it has on the route afterwards
   */
  Redrawing(Route old, List<CenterlinePart> parts, String crsWkt) {
    this.old = old;
    this.newId = old.id();
    double length = parts.get(parts.size() - 1).toAlong();
    Route line =
        new Route(
            newId,
            "",
            "",
            RoadClass.LOCAL,
            parts,
            PiecewiseMileposts.uncalibrated(length),
            new Edition(1, null, null));
    Map<String, Route> one = new LinkedHashMap<>();
    one.put(newId, line);
    this.onNew = new Locator(new Network(crsWkt, one, List.of()));
  }

  /** Carries of the old stretch, from end to end of the new one. */
  List<Carry> carries(double fromM, double toM, double startM, double endM) {
    List<Sample> samples = samples(fromM, toM);
    List<Foot> kept = inOrder(samples, startM, endM);
    List<Carry> carries = new ArrayList<>();
    Foot last = new Foot(-1, fromM, startM, 0);
    for (Foot foot : kept) {
      carries.add(between(samples, last, foot));
      last = foot;
    }
    carries.add(between(samples, last, new Foot(samples.size(), toM, endM, 0)));
    return carries;
  }

  private Carry between(List<Sample> samples, Foot a, Foot b) {
    boolean far =
        samples.subList(a.sample() + 1, b.sample()).stream().anyMatch(s -> s.feet().isEmpty());
    return new Carry(
        old.id(),
        a.oldM(),
        b.oldM(),
        newId,
        a.newM(),
        b.newM(),
        far ? Ground.REDRAWN_FAR : Ground.REDRAWN);
  }

  private List<Sample> samples(double fromM, double toM) {
    double step = Math.max(STEP_M, (toM - fromM) / MOST_SAMPLES);
    List<Double> alongs = new ArrayList<>();
    for (double at = fromM + step; at < toM; at += step) {
      alongs.add(at);
    }
    for (CalibrationPost p : old.mileposts().posts()) {
      if (p.alongM() > fromM && p.alongM() < toM) {
        alongs.add(p.alongM());
      }
    }
    List<Sample> samples = new ArrayList<>();
    alongs.stream()
        .sorted()
        .forEach(
            at -> {
              for (CenterlinePart part : old.parts()) {
                if (at >= part.fromAlong() && at <= part.toAlong()) {
                  double[] xy = Centerlines.at(part, at);
                  samples.add(
                      new Sample(at, onNew.candidates(xy[0], xy[1], REACH_M, SnapHint.NONE)));
                }
              }
            });
    return samples;
  }

  /** The longest run of feet that grow along both lines; of equal ones the nearest. */
  private static List<Foot> inOrder(List<Sample> samples, double startM, double endM) {
    List<Foot> feet = new ArrayList<>();
    for (int i = 0; i < samples.size(); i++) {
      for (Candidate c : samples.get(i).feet()) {
        double at = c.place().alongM();
        if (at > startM + APART_M && at < endM - APART_M) {
          feet.add(new Foot(i, samples.get(i).oldM(), at, c.distanceM()));
        }
      }
    }
    int[] count = new int[feet.size()];
    double[] away = new double[feet.size()];
    int[] before = new int[feet.size()];
    int best = -1;
    for (int i = 0; i < feet.size(); i++) {
      Foot here = feet.get(i);
      count[i] = 1;
      away[i] = here.away();
      before[i] = -1;
      for (int k = 0; k < i; k++) {
        Foot earlier = feet.get(k);
        double total = away[k] + here.away();
        if (here.oldM() - earlier.oldM() > APART_M
            && here.newM() - earlier.newM() > APART_M
            && (count[k] + 1 > count[i] || (count[k] + 1 == count[i] && total < away[i]))) {
          count[i] = count[k] + 1;
          away[i] = total;
          before[i] = k;
        }
      }
      if (best < 0 || count[i] > count[best] || (count[i] == count[best] && away[i] < away[best])) {
        best = i;
      }
    }
    List<Foot> kept = new ArrayList<>();
    for (int i = best; i >= 0; i = before[i]) {
      kept.add(0, feet.get(i));
    }
    return kept;
  }
}
