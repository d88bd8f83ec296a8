package lanemend.store;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import lanemend.crewdays.Assignment;
import lanemend.crewdays.Plant;
import lanemend.crewdays.Yard;
import lanemend.inventory.Defect;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.DistressKind;
import lanemend.inventory.PavementLayer;
import lanemend.inventory.Severity;
import lanemend.inventory.SurveyedDistress;
import lanemend.network.Network;

/** A store with rows in every table, for what looks at the file from outside. */
final class Filled {
  static final int ROUTES = 5;
  static final int DEFECTS = 120;

  private Filled() {}

  static Store store(Path file) {
    Invented invented = new Invented(77);
    Network network = invented.network(ROUTES, 6000, 3);
    List<Defect> defects = invented.defects(network, DEFECTS);
    Defect planned = defects.get(4);
    Store store = Store.create(file, Invented.Utm15.CRS);
    store.write(
        "ann",
        "first import",
        c -> {
          c.addNetwork(network);
          c.defects().insertAll(defects);
          c.findings().insertAll(invented.findings(network, 30));
          c.patches().insertAll(invented.patches(network, 80));
          c.attributes().insertAll(invented.attributes(network, 6));
          c.putSetting("agency", "{\"name\":\"Invented County\"}");
          c.replacePlaces(
              List.of(new Yard("Y1", "North yard", 481_000, 4_591_000)),
              List.of(
                  new Plant("P1", "Plant", 482_000, 4_592_000, null, null, 400, 6, 90, null),
                  new Plant("P2", "Pit", 482_500, 4_593_000, null, null, 100, 6, 90, null)));
          c.decisions().insertAll(invented.decisions(network));
          pavement(c, planned.place().routeId());
          c.held()
              .insert(
                  new HeldDefect(
                      defects.get(9).id(),
                      c.decisions().all().get(0).decision().sectionId(),
                      "overlaid in 2027"));
          c.defects()
              .update(
                  c.defects().find(defects.get(9).id()).orElseThrow(),
                  defects.get(9).withStatus(DefectStatus.DEFERRED_TO_OVERLAY));
          c.recordImport(new ImportRun("defects", "d.csv", 121, 120, List.of("d.csv:7 kind")));
          c.replaceAssignment(
              new Assignment(
                  List.of(
                      new Assignment.Day(
                          LocalDate.of(2026, 6, 1),
                          "north",
                          "P1",
                          2,
                          List.of(
                              new Assignment.Zone(
                                  planned.place().routeId(), List.of(planned.id())))))));
        });
    return store;
  }

  private static void pavement(Change c, String route) {
    c.surveys()
        .insert(
            new SurveyedDistress(
                "C-1",
                "7-1",
                new SurveyedDistress.Unit(
                    route, 100, 160, 220, false, LocalDate.of(2025, 7, 1), "ann"),
                DistressKind.RUTTING,
                Severity.LOW,
                12));
    c.layers()
        .insert(
            new PavementLayer(
                "L-1",
                route,
                100,
                500,
                PavementLayer.Course.ASPHALT,
                0.11,
                2019,
                PavementLayer.Source.CORE));
  }
}
