package lanemend.renewal;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.stream.IntStream;
import lanemend.inventory.PastPatch;
import lanemend.inventory.RoadAttributes;
import lanemend.network.Route;
import lanemend.renewal.exposure.Cell;
import lanemend.renewal.exposure.CellHistories;
import lanemend.renewal.exposure.Exposure;
import lanemend.renewal.exposure.ExposureBuilder;
import lanemend.renewal.hindcast.Hindcast;
import lanemend.renewal.hindcast.Holdout;
import lanemend.renewal.overlay.PatchingOutlook;
import lanemend.renewal.repairs.RepairForecast;
import lanemend.renewal.repairs.RepairModel;
import lanemend.renewal.sections.Cluster;
import lanemend.renewal.sections.FlaggedModel;
import lanemend.renewal.sections.Sectioning;
import lanemend.renewal.sections.Strip;

/**
 * A whole county from past work to flagged stretches, with what an engineer needs to judge them.
 *
 * @param clusters strongest first within each route; those that pass the line are flagged
 * @param sectionings one for each route, both ways side by side
 * @param hindcasts one for each number of years left out that the records allow
 */
public record RenewalStudy(
    RenewalSettings settings,
    Exposure exposure,
    RepairModel model,
    List<Strip> strips,
    List<Cluster> clusters,
    List<Sectioning> sectionings,
    List<Hindcast> hindcasts) {

  public RenewalStudy {
    strips = List.copyOf(strips);
    clusters = List.copyOf(clusters);
    sectionings = List.copyOf(sectionings);
    hindcasts = List.copyOf(hindcasts);
  }

  /**
   * Runs the study.
   *
   * @throws IllegalArgumentException when no repair at a known age was recorded
   */
  public static RenewalStudy of(
      Collection<Route> routes,
      RoadAttributes attributes,
      List<PastPatch> patches,
      RenewalSettings s) {
    return of(routes, attributes, patches, s, StudyProgress.NONE);
  }

  /**
   * Runs the study while somebody watches.
   *
   * @throws IllegalArgumentException when no repair at a known age was recorded
   * @throws java.util.concurrent.CancellationException when {@code progress} ends it
   */
  public static RenewalStudy of(
      Collection<Route> routes,
      RoadAttributes attributes,
      List<PastPatch> patches,
      RenewalSettings s,
      StudyProgress progress) {
    // The model with its scan and each hindcast take about the same time; the rest takes little.
    double steps = 1.0 + s.holdouts().size();
    progress.goOn("counting repairs by cell", 0);
    Exposure exposure =
        ExposureBuilder.build(
            routes, attributes, patches, s.families(), s.covariates(), s.exposure());
    progress.goOn("fitting the repair model and looking for clusters", 0);
    FlaggedModel flagged = FlaggedModel.of(exposure.histories(), s.fit(), s.scan());
    List<Hindcast> hindcasts = new ArrayList<>();
    Holdout.Records records =
        new Holdout.Records(
            routes, attributes, patches, s.families(), s.covariates(), s.exposure());
    for (int years : s.holdouts()) {
      progress.goOn(
          "hindcast with " + years + (years == 1 ? " year" : " years") + " left out",
          (1 + s.holdouts().indexOf(years)) / steps);
      Holdout holdout =
          s.exposure().recordsTo().minusYears(years).isAfter(s.exposure().recordsFrom())
              ? Holdout.of(records, years)
              : null;
      // Too short a history to leave years out of is no hindcast, rather than a meaningless one.
      if (holdout != null && holdout.known().allRepairs() >= RepairModel.ENOUGH) {
        hindcasts.add(Hindcast.of(holdout, years, s.fit(), s.scan()));
      }
    }
    progress.goOn("cutting roads into sections", 1);
    return of(s, exposure, flagged, hindcasts);
  }

  /** The study with what takes its time at hand: strips and sections follow from it. */
  public static RenewalStudy of(
      RenewalSettings s, Exposure exposure, FlaggedModel flagged, List<Hindcast> hindcasts) {
    List<Strip> strips = Strip.of(flagged.model());
    return new RenewalStudy(
        s,
        exposure,
        flagged.model(),
        strips,
        flagged.clusters(),
        strips.stream().map(strip -> Sectioning.of(strip, s.sectioning())).toList(),
        hindcasts);
  }

  /** The clusters that passed the false-discovery line. */
  public List<Cluster> flagged() {
    return clusters.stream().filter(Cluster::flagged).toList();
  }

  /**
   * Repairs of a stretch somebody chose, under the surface now in place, beside what its families
   * would have had, scaled to the county's total as the scan does.
   */
  public Cluster byHand(String routeId, double fromAlongM, double toAlongM) {
    double county = 0;
    double countyExpected = 0;
    int repairs = 0;
    double expected = 0;
    for (Strip s : strips) {
      for (int c = 0; c < s.cells(); c++) {
        county += s.repairs()[c];
        countyExpected += s.expected()[c];
        double middle = (s.edges()[c] + s.edges()[c + 1]) / 2;
        if (s.routeId().equals(routeId) && middle >= fromAlongM && middle < toAlongM) {
          repairs += s.repairs()[c];
          expected += s.expected()[c];
        }
      }
    }
    double scale = countyExpected > 0 ? county / countyExpected : 1;
    return Cluster.byHand(routeId, fromAlongM, toAlongM, repairs, scale * expected);
  }

  /** Cells of all lanes whose middle lies on a stretch. */
  public int[] cells(String routeId, double fromAlongM, double toAlongM) {
    CellHistories h = model.histories();
    return IntStream.range(0, h.size())
        .filter(
            i -> {
              Cell c = h.cell(i);
              double middle = (c.fromAlongM() + c.toAlongM()) / 2;
              return c.routeId().equals(routeId) && middle >= fromAlongM && middle < toAlongM;
            })
        .toArray();
  }

  /** Repairs, tonnes and cost of a stretch over 1 to {@code years} years, surfaces left as is. */
  public RepairForecast forecast(String routeId, double fromAlongM, double toAlongM, int years) {
    return RepairForecast.of(
        model,
        cells(routeId, fromAlongM, toAlongM),
        years,
        settings.repairCost(),
        settings.draws());
  }

  /** What patching a stretch would need with and without a new surface. */
  public PatchingOutlook outlook(String routeId, double fromAlongM, double toAlongM, int years) {
    return PatchingOutlook.of(model, cells(routeId, fromAlongM, toAlongM), years);
  }

  /** Repairs by year and cell of a stretch, and the model beside them. */
  public SectionHistory history(String routeId, double fromAlongM, double toAlongM) {
    return SectionHistory.of(
        model,
        cells(routeId, fromAlongM, toAlongM),
        settings.exposure().recordsFrom(),
        settings.exposure().recordsTo());
  }
}
