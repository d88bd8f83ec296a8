package lanemend.store;

import java.sql.SQLException;
import java.util.List;
import java.util.Map;
import lanemend.network.CalibrationPost;
import lanemend.network.CenterlinePart;
import lanemend.network.Connector;
import lanemend.network.Edition;
import lanemend.network.MilepostMap;
import lanemend.network.PiecewiseMileposts;
import lanemend.network.RoadClass;
import lanemend.network.Route;

/** Routes, their posts and connectors in their tables. */
final class NetworkShapes {

  private NetworkShapes() {}

  /** Which edition of which route a post belongs to. */
  record RouteEdition(String routeId, int edition) {}

  /** A post of a route's edition, with its place in the projected system. */
  record Post(RouteEdition on, CalibrationPost post, double x, double y) {}

  static final RowShape<String> ROADWAY =
      new RowShape<>() {
        @Override
        public Table table() {
          return Tables.ROADWAY;
        }

        @Override
        public String key(String id) {
          return id;
        }

        @Override
        public Object[] values(String id, Roads roads) {
          return new Object[] {id};
        }

        @Override
        public String read(Row row) throws SQLException {
          return row.text("id");
        }
      };

  /** Routes as stored, given the posts of their editions by growing along. */
  record RouteShape(Map<RouteEdition, List<CalibrationPost>> posts) implements RowShape<Route> {

    @Override
    public Table table() {
      return Tables.ROUTE;
    }

    @Override
    public String key(Route r) {
      return r.id();
    }

    @Override
    public Object[] values(Route r, Roads roads) {
      return new Object[] {
        GeoBlob.lines(roads.srsId(), r.parts()),
        r.id(),
        r.edition().number(),
        r.name(),
        r.direction(),
        Column.code(r.roadClass()),
        r.lengthM(),
        r.mileposts().calibrated() ? 1 : 0,
        EventShapes.day(r.edition().validFrom()),
        EventShapes.day(r.edition().validTo())
      };
    }

    @Override
    public Route read(Row row) throws SQLException {
      List<CenterlinePart> parts = row.parts();
      if (parts.isEmpty()) {
        throw row.odd("geom", "an empty geometry", "a line");
      }
      String id = row.text("id");
      int edition = (int) row.whole("edition");
      double length = parts.get(parts.size() - 1).toAlong();
      return new Route(
          id,
          row.text("name"),
          row.text("direction"),
          row.code("road_class", RoadClass.class),
          parts,
          mileposts(row, posts.getOrDefault(new RouteEdition(id, edition), List.of()), length),
          new Edition(edition, row.day("valid_from"), row.day("valid_to")));
    }
  }

  /** Posts of an uncalibrated route are those worked out for it from its opposite roadway. */
  private static MilepostMap mileposts(Row row, List<CalibrationPost> posts, double lengthM)
      throws SQLException {
    try {
      return posts.isEmpty()
          ? PiecewiseMileposts.uncalibrated(lengthM)
          : PiecewiseMileposts.derived(posts, lengthM, row.whole("calibrated") == 1);
    } catch (IllegalArgumentException e) {
      throw row.odd("id", e.getMessage(), "calibration posts in order");
    }
  }

  static final RowShape<Post> POST =
      new RowShape<>() {
        @Override
        public Table table() {
          return Tables.POST;
        }

        @Override
        public String key(Post p) {
          return p.on().routeId() + " " + p.post().backMiles();
        }

        @Override
        public Object[] values(Post p, Roads roads) {
          return new Object[] {
            GeoBlob.point(roads.srsId(), p.x(), p.y()),
            p.on().routeId(),
            p.on().edition(),
            p.post().alongM(),
            p.post().backMiles(),
            p.post().aheadMiles()
          };
        }

        @Override
        public Post read(Row row) throws SQLException {
          CalibrationPost post =
              new CalibrationPost(
                  row.number("along_m"), row.number("back_mi"), row.number("ahead_mi"));
          double[] xy = row.point();
          return new Post(
              new RouteEdition(row.text("route_id"), (int) row.whole("edition")),
              post,
              xy[0],
              xy[1]);
        }
      };

  static final RowShape<Connector> CONNECTOR =
      new RowShape<>() {
        @Override
        public Table table() {
          return Tables.CONNECTOR;
        }

        @Override
        public String key(Connector c) {
          return c.id();
        }

        @Override
        public Object[] values(Connector c, Roads roads) {
          return new Object[] {
            GeoBlob.line(roads.srsId(), c.line()),
            c.id(),
            EventShapes.text(c.name()),
            Column.code(c.roadClass()),
            c.line().toAlong() - c.line().fromAlong()
          };
        }

        @Override
        public Connector read(Row row) throws SQLException {
          List<CenterlinePart> parts = row.parts();
          if (parts.size() != 1) {
            throw row.odd("geom", parts.size() + " lines", "one line");
          }
          return new Connector(
              row.text("id"),
              row.text("name"),
              row.code("road_class", RoadClass.class),
              parts.get(0));
        }
      };
}
