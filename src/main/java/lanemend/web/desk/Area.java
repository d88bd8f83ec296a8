package lanemend.web.desk;

/** The routes of one part of the job. */
interface Area {

  /** Registers its routes. */
  void addTo(Api api);
}
