package lanemend.web.desk;

/** What a map tile can show, from the bottom up. */
enum TileLayer {
  ROADS,
  SECTIONS,
  ZONES,
  PATCHES,
  POSTS,
  DEFECTS
}
