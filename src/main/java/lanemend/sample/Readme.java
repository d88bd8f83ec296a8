package lanemend.sample;

import java.util.Locale;

/** The text that goes with a county's files. */
final class Readme {
  private Readme() {}

  static String text(County c) {
    long numbered = c.roads().stream().filter(r -> r.mileposts().calibrated()).count();
    return String.format(
        Locale.ROOT,
        """
        # %1$s

        **This county is invented.** A program drew it from the seed %2$d. Its roads, towns, river,
        people, agency, traffic, defects and repairs are made up; route numbers and names that
        happen to exist elsewhere mean nothing. Its coordinates fall on a stretch of high desert so
        that lengths and map projections behave as they do in the United States, but the ground is
        not that of any real county, and nothing here may be used to go anywhere or to judge any
        real road.

        | File | What it holds |
        |---|---|
        | `county.json` | which file is what, and how the road file's fields are named |
        | `roads.geojson` | %3$d short lines in no order, %4$.0f road miles (a divided road counts once), one line of text a feature |
        | `posts.csv` | %5$d milepost signs and equations of %6$d numbered routes; the other %7$d routes have no signs |
        | `attributes.csv` | traffic, truck share, town limits, base and last surfacing by stretch |
        | `agency.json` | two yards, a plant and a cold mix stockpile, three crews, shared machines and trucks, rates, season and the plan to make |
        | `forecast.csv` | weather of the plan's first ten days |
        | `defects.csv` | %8$d open asphalt defects found by patrols in March and April 2026 |
        | `findings.csv` | %9$d other findings for whoever owns fences, signs, culverts and ditches |
        | `patches.csv` | %10$d repairs and resurfacings, 2016 to 2025 |
        | `truth.json` | what the repairs were drawn from, planted weak sections included; no part of the job reads it, it is there to check a forecast |

        ## Worth knowing

        - SR 64 is divided: `SR 64 NB` and `SR 64 SB` are two roadways with one set of mileposts,
          which fall along the southbound one. Three diamond interchanges; one county road passes
          over it without meeting it (`level` 1).
        - SR 117 runs on SR 31 through Ombrel: those lines are named `SR 31;SR 117`. Its mileposts
          fall along it.
        - SR 31 has an equation that repeats mileposts: there `back` or `ahead` must be written. SR 8
          has one that skips some.
        - Signs stand up to 6 %% more or less than a mile apart. SR 205, a spur, has its signs by
          distance from its start. CR 77 is a loop off SR 8; HR 1, HR 2 and so on are hill roads.
        - Lines without a route are town streets, ramps and turn-rounds: trucks may use them, nothing
          is located on them.
        - The %11$s crosses the county; few roads do.
        - Rates, prices and due days are made up, as everything else.

        Written by `lanemend.sample.SampleCounty`; the same seed and size give the same bytes.
        """,
        Terrain.COUNTY,
        c.seed(),
        c.lines().size(),
        c.roadMiles(),
        c.posts().size(),
        numbered,
        c.roads().size() - numbered,
        c.defects().size(),
        c.findings().size(),
        c.history().size(),
        Terrain.RIVER);
  }
}
