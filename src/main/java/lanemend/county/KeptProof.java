package lanemend.county;

import java.util.Optional;
import lanemend.crewdays.PlanProof;
import lanemend.exchange.PlanProofJson;
import lanemend.store.Change;
import lanemend.store.Setting;
import lanemend.store.Store;
import lanemend.store.Stored;

/** What is proven of the cost of the kept plan; gone when the plan changes. */
public final class KeptProof {
  static final String SETTING = "plan_proof";

  private KeptProof() {}

  /** Keeps a proof beside the plan it is about. */
  public static void put(Change change, PlanProof proof) {
    change.putSetting(SETTING, PlanProofJson.json(proof));
  }

  /** To be called when the plan changes. */
  public static void forget(Change change) {
    Optional<Stored<Setting>> kept = change.settings().find(SETTING);
    kept.ifPresent(change.settings()::delete);
  }

  /** What is proven of the plan that is kept. */
  public static Optional<PlanProof> of(Store store) {
    return store.read(s -> s.setting(SETTING)).flatMap(PlanProofJson::parse);
  }
}
