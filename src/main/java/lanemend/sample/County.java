package lanemend.sample;

import java.util.List;
import lanemend.sample.Surfacing.Section;

/**
 * An invented county, whole: what the files say and what only the generator knows.
 *
 * @param roads every route with its true along and mileposts
 * @param sections surfacing of each route, in the order of roads
 */
record County(
    SampleSize size,
    long seed,
    Roads drawn,
    List<RoadLine> lines,
    List<Roadway> roads,
    List<Posts.Row> posts,
    List<List<Section>> sections,
    Wear wear,
    List<History.Row> history,
    List<Patrol.DefectRow> defects,
    List<Patrol.FindingRow> findings) {

  static County invent(SampleSize size, long seed) {
    Dice dice = new Dice(seed);
    Roads drawn = Roads.build(size, dice.fork());
    List<RoadLine> lines = RoadLine.cut(drawn, dice.fork());
    Posts.Signed signed = Posts.place(Roadways.of(drawn), dice.fork());
    List<List<Section>> sections = Surfacing.lay(signed.roads(), dice.fork());
    Wear wear = Wear.draw(sections, size.roadMiles(), size.repairsPerMile(), dice.fork());
    List<History.Row> history = History.draw(wear, sections, dice.fork());
    Patrol patrol = new Patrol(signed.roads(), drawn, dice.fork());
    return new County(
        size,
        seed,
        drawn,
        lines,
        signed.roads(),
        signed.rows(),
        sections,
        wear,
        history,
        patrol.defects(wear, size.openDefects()),
        patrol.findings(size.findings()));
  }

  double roadMiles() {
    return Board.miles(drawn.welded().drafts());
  }
}
