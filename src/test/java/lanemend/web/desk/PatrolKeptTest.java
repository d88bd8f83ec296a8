package lanemend.web.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import java.net.URI;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a phone keeps of the patrol page: its files, and the roads to locate on. */
class PatrolKeptTest {
  @TempDir static Path folder;
  private static SmallDesk desk;

  @BeforeAll
  static void open() {
    desk = SmallDesk.open(folder);
  }

  @AfterAll
  static void close() {
    desk.close();
  }

  @Test
  void thePhoneLocatesAsTheDeskDoes() {
    DeskBrowser browser = DeskBrowser.on(desk);
    browser.open("/patrol");
    Object asked =
        browser
            .driver()
            .executeAsyncScript(
                """
                const done = arguments[arguments.length - 1];
                (async () => {
                  const roads = await import('/desk/patrol/roads.js');
                  const county = await (await fetch('/api/field/county')).json();
                  const read = roads.read(county);
                  const far = [];
                  let n = 0;
                  for (const r of read) {
                    for (const p of r.parts) {
                      const i = Math.floor(p.lon.length / 2);
                      const lon = p.lon[i] + 4e-5;
                      const lat = p.lat[i] + 3e-5;
                      const {spots} = await (await fetch(`/api/nearest?lon=${lon}&lat=${lat}&within=30`)).json();
                      const mine = roads.near(read, {lon, lat, accuracyM: 5, heading: null}, 30);
                      for (const s of spots) {
                        n++;
                        const m = mine.find((f) => f.road.id === s.route && Math.abs(f.along - s.alongM) < 1);
                        if (!m || Math.abs(m.distanceM - s.distanceM) > 0.3 || (m.right ? 'right' : 'left') !== s.side
                            || Math.abs(Number(roads.milepost(m.road, m.along).split(' ')[0]) - Number(s.milepost.split(' ')[0])) > 0.002
                            || roads.milepost(m.road, m.along).split(' ')[1] !== s.milepost.split(' ')[1]) {
                          far.push(JSON.stringify([s, m && {...m, road: m.road.id, at: roads.milepost(m.road, m.along)}]));
                        }
                      }
                    }
                  }
                  done(JSON.stringify({n, far}));
                })().catch((e) => done(String(e)));
                """);
    try {
      JsonNode told = Api.JSON.readTree(String.valueOf(asked));
      assertTrue(told.path("n").asInt() > 20, told.toString());
      assertEquals(0, told.path("far").size(), told.path("far").toString());
    } catch (JsonProcessingException e) {
      throw new AssertionError(String.valueOf(asked), e);
    }
  }

  @Test
  void everyFileThePageNeedsIsKept() {
    // Given what the page and its modules name
    Set<String> kept = new TreeSet<>();
    String worker = desk.get("/patrol/worker.js").whole().body();
    var names = Pattern.compile("'(/[^']+)'").matcher(worker);
    while (names.find()) {
      kept.add(names.group(1));
    }
    Set<String> needed = new TreeSet<>(Set.of("/patrol"));
    Deque<String> look = new ArrayDeque<>(List.of("/patrol"));
    var link = Pattern.compile("(?:src|href)=\"(/desk/[^\"]+)\"|from '([.]{1,2}/[^']+)'");
    while (!look.isEmpty()) {
      String at = look.remove();
      var m = link.matcher(desk.get(at).whole().body());
      while (m.find()) {
        String to = m.group(1) != null ? m.group(1) : URI.create(at).resolve(m.group(2)).getPath();
        if (needed.add(to)) {
          look.add(to);
        }
      }
    }
    assertEquals(needed, kept);
    assertFalse(kept.isEmpty());
  }
}
