package lanemend.exchange;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import lanemend.inventory.PavementLayer;
import lanemend.inventory.SurveyedDistress;
import lanemend.network.Locator;
import lanemend.network.Network;
import lanemend.network.Route;

/**
 * Puts rows of condition surveys and layers on the road. What cannot be placed without guessing
 * joins the rows refused before. Looks at the network only; stores nothing.
 */
public final class PavementLocator {
  private final PlaceFinder places;

  private record Stretch(String routeId, double fromM, double toM) {}

  public PavementLocator(Network network, Locator locator) {
    this.places = new PlaceFinder(network, locator, Optional.empty());
  }

  /**
   * Places the rows of a survey. Rows of one sample and day must tell of the same place and area.
   *
   * @param kept rows that stand in the store; ids and distresses of theirs are refused
   */
  public Read<SurveyedDistress> survey(Read<RawDistress> read, List<SurveyedDistress> kept) {
    Set<String> taken = new HashSet<>();
    Set<String> seen = new HashSet<>();
    Map<String, SurveyedDistress.Unit> units = new HashMap<>();
    for (SurveyedDistress d : kept) {
      taken.add(d.id());
      seen.add(distress(d));
      units.put(visit(d), d.unit());
    }
    return EventLocator.all(
        read,
        RawDistress::origin,
        raw -> {
          SurveyedDistress d = placed(raw);
          SurveyedDistress.Unit before = units.get(visit(d));
          if (before != null && !before.equals(d.unit())) {
            throw new Refusal(
                "sample",
                d.sample(),
                "the place, area and surveyor that the sample's other rows of "
                    + d.unit().surveyedOn()
                    + " have");
          }
          if (seen.contains(distress(d))) {
            throw new Refusal(
                "kind",
                PavementNames.of(d.kind()) + " " + PavementNames.of(d.severity()),
                "each kind and severity once in a sample and day: add the quantities up");
          }
          EventLocator.checkId(d.id(), taken);
          units.put(visit(d), d.unit());
          seen.add(distress(d));
          return d;
        });
  }

  private SurveyedDistress placed(RawDistress r) throws Refusal {
    Stretch s = stretch(r.place());
    double area = r.areaM2().orElseGet(() -> r.widthM().orElseThrow() * (s.toM() - s.fromM()));
    return new SurveyedDistress(
        r.id(),
        r.sample(),
        new SurveyedDistress.Unit(
            s.routeId(), s.fromM(), s.toM(), area, r.additional(), r.surveyedOn(), r.surveyedBy()),
        r.kind(),
        r.severity(),
        r.quantity());
  }

  private static String visit(SurveyedDistress d) {
    return d.unit().surveyedOn() + " " + d.sample();
  }

  private static String distress(SurveyedDistress d) {
    return visit(d) + " " + d.kind() + " " + d.severity();
  }

  /**
   * Places layers.
   *
   * @param takenIds ids that stand in the store; rows with one of them are refused
   */
  public Read<PavementLayer> layers(Read<RawLayer> read, Set<String> takenIds) {
    Set<String> taken = new HashSet<>(takenIds);
    return EventLocator.all(
        read,
        RawLayer::origin,
        l -> {
          Stretch s = stretch(l.place());
          EventLocator.checkId(l.id(), taken);
          return new PavementLayer(
              l.id(),
              s.routeId(),
              s.fromM(),
              s.toM(),
              l.course(),
              l.thicknessM(),
              l.year(),
              l.source());
        });
  }

  private Stretch stretch(WrittenPlace w) throws Refusal {
    Route route = places.routes().one(w.route(), w.direction());
    double from =
        w.milepostFrom().isEmpty() ? 0 : places.along(route, "milepost_from", w.milepostFrom());
    double to =
        w.milepostTo().isEmpty()
            ? route.lengthM()
            : places.along(route, "milepost_to", w.milepostTo());
    if (from == to) {
      throw new Refusal("milepost_to", w.milepostTo(), "a milepost other than milepost_from");
    }
    return new Stretch(route.id(), Math.min(from, to), Math.max(from, to));
  }
}
