package lanemend.exchange;

import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.datatype.jsr310.JavaTimeModule;
import java.io.BufferedInputStream;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.zip.GZIPInputStream;
import java.util.zip.GZIPOutputStream;
import lanemend.renewal.exposure.Exposure;
import lanemend.renewal.exposure.ExposureSettings;
import lanemend.renewal.hindcast.Hindcast;
import lanemend.renewal.repairs.FamilyFit;
import lanemend.renewal.repairs.RepairCost;
import lanemend.renewal.repairs.RepairModel;
import lanemend.renewal.sections.Cluster;
import lanemend.renewal.sections.FlaggedModel;

/**
 * A renewal study in a file of its own, packed JSON: a thing that can be made again, so it is read
 * only by the very program that wrote it, and anything else about it is as if there were none.
 */
public final class StudyFile {
  private static final ObjectMapper JSON =
      new ObjectMapper()
          .registerModule(new JavaTimeModule())
          .disable(SerializationFeature.WRITE_DATES_AS_TIMESTAMPS)
          .enable(DeserializationFeature.FAIL_ON_MISSING_CREATOR_PROPERTIES)
          .enable(DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES);

  private StudyFile() {}

  /** The file's members; what the core has as records is written as they are. */
  record Members(
      String program,
      String stamp,
      long lastChange,
      String agency,
      RepairCost cost,
      ExposureSettings settings,
      Histories histories,
      List<Exposure.Inferred> inferred,
      List<Exposure.ToAsk> toAsk,
      List<Exposure.Unused> unused,
      List<Exposure.Remark> remarks,
      List<FamilyFit> families,
      List<RepairModel.SectionLevel> sections,
      List<Cluster> clusters,
      List<Hindcast> hindcasts) {}

  /** Writes a study whole, or leaves the file as it was. */
  public static void write(Path file, KeptStudy study) throws IOException {
    Exposure e = study.exposure();
    RepairModel.Fitted fitted = study.flagged().model().fitted();
    Members members =
        new Members(
            program(),
            study.stamp(),
            study.lastChange(),
            study.agency(),
            study.cost(),
            e.settings(),
            Histories.of(e.histories()),
            e.inferred(),
            e.toAsk(),
            e.unused(),
            e.remarks(),
            fitted.families(),
            fitted.sections(),
            study.flagged().clusters(),
            study.hindcasts());
    Path whole = file.resolveSibling(file.getFileName() + ".new");
    try {
      try (OutputStream out =
          new GZIPOutputStream(new BufferedOutputStream(Files.newOutputStream(whole)))) {
        JSON.writeValue(out, members);
      }
      Files.move(whole, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    } finally {
      Files.deleteIfExists(whole);
    }
  }

  /**
   * Reads a study.
   *
   * @throws IOException with one sentence when it is damaged, or another program's
   */
  public static KeptStudy read(Path file) throws IOException {
    Members m;
    try (InputStream in =
        new GZIPInputStream(new BufferedInputStream(Files.newInputStream(file)))) {
      m = JSON.readValue(in, Members.class);
    } catch (IOException e) {
      throw new IOException("it cannot be read: " + firstLine(e), e);
    }
    if (!program().equals(m.program())) {
      throw new IOException("another version of the program wrote it");
    }
    try {
      Exposure exposure =
          new Exposure(
              m.histories().unpacked(),
              m.settings(),
              m.inferred(),
              m.toAsk(),
              m.unused(),
              m.remarks());
      FlaggedModel flagged =
          FlaggedModel.of(
              exposure.histories(),
              new RepairModel.Fitted(m.families(), m.sections()),
              m.clusters());
      return new KeptStudy(
          m.stamp(), m.lastChange(), m.agency(), m.cost(), exposure, flagged, m.hindcasts());
    } catch (RuntimeException e) {
      throw new IOException("its parts do not go together: " + firstLine(e), e);
    }
  }

  private static String firstLine(Exception e) {
    return String.valueOf(e.getMessage()).lines().findFirst().orElse("");
  }

  /** What this program was built from: another version may count otherwise. */
  private static String program() throws IOException {
    try (InputStream in = StudyFile.class.getResourceAsStream("/lanemend/build.properties")) {
      return in == null ? "" : new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }
}
