package lanemend.renewal;

import java.util.List;
import lanemend.renewal.exposure.Covariate;
import lanemend.renewal.exposure.ExposureSettings;
import lanemend.renewal.exposure.Families;
import lanemend.renewal.repairs.FitOptions;
import lanemend.renewal.repairs.RepairCost;
import lanemend.renewal.repairs.RepairForecast.Draws;
import lanemend.renewal.sections.ScanSettings;
import lanemend.renewal.sections.Sectioning;

/**
 * Everything an agency may set in a renewal study.
 *
 * @param holdouts years left out in the hindcasts, one hindcast each
 */
public record RenewalSettings(
    ExposureSettings exposure,
    Families families,
    List<Covariate> covariates,
    FitOptions fit,
    ScanSettings scan,
    Sectioning.Settings sectioning,
    RepairCost repairCost,
    Draws draws,
    List<Integer> holdouts) {

  public RenewalSettings {
    covariates = List.copyOf(covariates);
    holdouts = List.copyOf(holdouts);
  }

  /** Families by surface and traffic, hindcasts of 1, 2 and 3 years; prices are the agency's. */
  public static RenewalSettings standard(ExposureSettings exposure, RepairCost repairCost) {
    return new RenewalSettings(
        exposure,
        Families.surfaceByTraffic(),
        List.of(),
        FitOptions.FULL,
        ScanSettings.standard(),
        Sectioning.Settings.STANDARD,
        repairCost,
        Draws.STANDARD,
        List.of(1, 2, 3));
  }
}
