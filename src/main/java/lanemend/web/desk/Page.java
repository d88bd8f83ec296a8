package lanemend.web.desk;

/** The desk's pages, in the order of the job. */
enum Page {
  MAP("map", "Map"),
  DEFECTS("defects", "Defects"),
  DAYS("days", "Crew days"),
  SHEETS("sheets", "Sheets"),
  FINDINGS("findings", "Findings"),
  RENEWAL("renewal", "Renewal"),
  SEASON("season", "Season");

  /** Folder of its files and first part of its address. */
  final String folder;

  /** Its name in the header. */
  final String title;

  Page(String folder, String title) {
    this.folder = folder;
    this.title = title;
  }
}
