package lanemend.inventory;

import java.util.List;

/**
 * Two defects that look like one.
 *
 * @param keep the one that stays: further on in the job, else found first
 * @param drop the one to withdraw
 * @param dropFromM where the dropped one lies along the kept one's route
 * @param belief that they are one, 0 to 1
 * @param reasons what speaks for and against it, a phrase each
 */
public record DuplicatePair(
    Defect keep,
    Defect drop,
    double dropFromM,
    double dropToM,
    double belief,
    List<String> reasons) {
  public DuplicatePair {
    reasons = List.copyOf(reasons);
  }
}
