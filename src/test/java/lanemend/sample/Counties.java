package lanemend.sample;

/** Counties that several tests look at; making one takes a second or so. */
final class Counties {
  static final County STANDARD = County.invent(SampleSize.STANDARD, SampleCounty.STANDARD_SEED);

  static final County SMALL = County.invent(new SampleSize(150, 50, 10, 8), 1);

  private Counties() {}
}
