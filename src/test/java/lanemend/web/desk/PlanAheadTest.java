package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotSame;
import static org.junit.jupiter.api.Assertions.assertSame;

import java.nio.file.Path;
import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.Set;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import lanemend.county.County;
import lanemend.county.KeptProof;
import lanemend.crewdays.Plan;
import lanemend.crewdays.PlanProof;
import lanemend.store.Change;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The plan is worked out once for each time it is written, and not for each page that asks. */
class PlanAheadTest {
  @TempDir Path folder;
  private SmallDesk desk;

  @BeforeEach
  void open() {
    desk = SmallDesk.open(folder);
  }

  @AfterEach
  void close() {
    desk.close();
  }

  private void write(Consumer<Change> work) {
    desk.store().write("tester", "a change", work);
  }

  @Test
  void ofManyThatAskAtOnceAllGetTheOnePlan() {
    County county = County.read(desk.store());
    Set<Plan> plans = Collections.newSetFromMap(new IdentityHashMap<>());
    IntStream.range(0, 16).parallel().mapToObj(i -> county.plan()).forEach(p -> add(plans, p));
    assertEquals(1, plans.size());
  }

  private static void add(Set<Plan> plans, Plan plan) {
    synchronized (plans) {
      plans.add(plan);
    }
  }

  @Test
  void aPlanKeptInPlaceOfOneWithAProofLeavesRoadsAndRecordsAsTheyWereRead() {
    write(c -> KeptProof.put(c, new PlanProof(1000, 0, 900, 10)));
    County before = County.read(desk.store());
    write(
        c -> {
          c.replaceAssignment(before.assignment());
          KeptProof.forget(c);
        });
    County now = before.now(desk.store());
    assertNotSame(before, now);
    assertSame(before.network(), now.network());
    assertEquals(before.plan(), now.plan());
    // Another setting is read with all the rest
    write(c -> c.putSetting(County.FORECAST_SETTING, "{\"days\": []}"));
    assertNotSame(before.network(), now.now(desk.store()).network());
  }
}
