package lanemend.sample;

import java.io.IOException;
import java.nio.file.Path;

/**
 * Writes an invented county into a folder: roads, milepost signs, road facts, patrol findings, ten
 * years of repairs, the agency, and the truth the repairs were drawn from. No place, road, person
 * or agency in it is real.
 */
public final class SampleCounty {

  /** Seed of the county kept in the folder sample-network. */
  public static final long STANDARD_SEED = 20_260_504;

  private SampleCounty() {}

  /**
   * Writes the county; the same size and seed give the same bytes on every machine. Files of the
   * same names are overwritten, others left alone.
   *
   * @param folder made when it is not there
   * @throws IOException when a file cannot be written
   */
  public static void write(Path folder, SampleSize size, long seed) throws IOException {
    FolderWriter.write(County.invent(size, seed), folder);
  }

  /** Writes the standard county into the folder named, or into sample-network. */
  public static void main(String[] args) throws IOException {
    Path folder = Path.of(args.length > 0 ? args[0] : "sample-network");
    write(folder, SampleSize.STANDARD, STANDARD_SEED);
  }
}
