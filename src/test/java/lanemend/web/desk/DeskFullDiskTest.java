package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import lanemend.SmallDisk;
import lanemend.accounts.Role;
import lanemend.store.StoreCheck;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The desk on a disk that is really full. */
class DeskFullDiskTest {
  @TempDir Path folder;
  private SmallDisk disk;
  private People people;

  @BeforeEach
  void aDeskOnASmallDisk() throws Exception {
    disk = SmallDisk.in(folder, 48);
    people = People.at(disk.folder());
    people.cookie(Role.PLANNER);
  }

  @AfterEach
  void takeItAway() throws Exception {
    if (people != null) {
      people.close();
    }
    if (disk != null) {
      disk.close();
    }
  }

  private SmallDesk.Answer add(String note) {
    String form =
        people
            .get(Role.PLANNER, "/api/defects?count=1&sort=place")
            .json()
            .at("/rows/0")
            .path("route")
            .asText();
    return people.send(
        Role.PLANNER,
        "POST",
        "/api/defects",
        """
        {"route":"%s","milepost":"0.1","lane":"R1","kind":"pothole","severity":"high",
         "length":2,"width":1.5,"depth":3,"note":"%s"}"""
            .formatted(form, note));
  }

  private Set<String> ids() {
    Set<String> ids = new TreeSet<>();
    people.desk().store().read(s -> s.defects().all()).forEach(d -> ids.add(d.id()));
    return ids;
  }

  private static void assertNoRoom(SmallDesk.Answer refused) {
    assertEquals(503, refused.status(), refused.whole().body());
    assertEquals("/problems/no-room", refused.json().path("type").asText());
    assertEquals(
        "the desk's disk is full, so nothing was changed: keep what you wrote, and ask whoever runs"
            + " the desk to make room",
        refused.json().path("detail").asText());
  }

  @Test
  void aWriteIsRefusedInOneSentenceNothingIsLostAndReadingGoesOn() throws Exception {
    // Given a full disk; what the log beside the store has left may still take a write or two
    Set<String> kept = ids();
    assertFalse(kept.isEmpty());
    Path fill = disk.fill();
    SmallDesk.Answer last = add("first");
    for (int i = 0; i < 2_000 && last.status() == 201; i++) {
      kept.add(last.json().path("id").asText());
      last = add("more " + i);
    }
    assertNoRoom(last);
    // Taking back is a write as well
    assertNoRoom(
        people.send(
            Role.PLANNER,
            "POST",
            "/api/changes/"
                + people.desk().store().read(r -> r.writes()).stream()
                    .mapToLong(w -> w.edit())
                    .max()
                    .orElseThrow()
                + "/undo",
            "{}"));
    assertEquals(kept, ids(), "what was answered as done, and nothing else");
    assertEquals(
        kept.size(),
        people.get(Role.PLANNER, "/api/defects?count=1").json().path("total").asInt(),
        "as the desk tells it");
    for (String path : List.of("/api/county", "/api/plan", "/api/season", "/map", "/health")) {
      assertEquals(200, people.get(Role.PLANNER, path).status(), path);
    }
    assertEquals("low_on_disk", people.desk().get("/health").json().path("status").asText());
    // When there is room again, then the desk writes on without being started anew
    Files.delete(fill);
    SmallDesk.Answer again = add("after");
    assertEquals(201, again.status(), again.whole().body());
    kept.add(again.json().path("id").asText());
    assertEquals(kept, ids());
    assertEquals(List.of(), StoreCheck.check(disk.folder().resolve("lanemend.gpkg")));
  }

  @Test
  void nobodySignsInUnwrittenAndWhoIsInStaysIn() throws Exception {
    Path fill = disk.fill();
    SmallDesk.Answer last = people.signIn(People.name(Role.CREW), People.PASSWORD);
    for (int i = 0; i < 200 && last.status() == 200; i++) {
      last = people.signIn(People.name(Role.CREW), People.PASSWORD);
    }
    assertNoRoom(last);
    assertTrue(last.whole().headers().firstValue("Set-Cookie").isEmpty());
    assertFalse(last.whole().body().contains("accounts.db"), "no path is told");
    assertEquals(200, people.get(Role.PLANNER, "/api/county").status());
    Files.delete(fill);
    assertEquals(200, people.signIn(People.name(Role.CREW), People.PASSWORD).status());
  }
}
