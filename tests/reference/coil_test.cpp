#include "air/coil.h"

#include <cmath>
#include <vector>

#include "table.h"

namespace ductwright::reference {
namespace {

using air::crossFlowEffectiveness;

// The exchanger itself, without a formula: cells in which two unmixed streams cross, each cell exchanging by
// its mean temperature difference. The hot stream has the lesser capacity, 1; inlet temperatures 1 and 0.
double marchedEffectiveness(double ntu, double ratio) {
  constexpr int n = 300;
  const double hot = 1.0 / n;
  const double cold = 1.0 / ratio / n;
  const double conductance = ntu / n / n;
  std::vector<double> coldTemperature(n, 0.0);
  double leaving = 0;
  for (int i = 0; i < n; ++i) {
    double hotTemperature = 1;
    for (auto& c : coldTemperature) {
      const double q = conductance * (hotTemperature - c) / (1 + conductance / 2 * (1 / hot + 1 / cold));
      hotTemperature -= q / hot;
      c += q / cold;
    }
    leaving += hotTemperature / n;
  }
  return 1 - leaving;
}

// Derived here from the energy balance of each cell. The usual approximation stays within
// 0.012 of it (worst near an NTU of 0.5 with equal capacities).
TEST(Coil, staysNearAnExchangerWorkedOutCellByCell) {
  for (const double ratio : {0.1, 0.25, 0.5, 0.75, 1.0})
    for (const double ntu : {0.1, 0.5, 1.0, 2.0, 3.0, 5.0})
      EXPECT_NEAR(crossFlowEffectiveness(ntu, ratio), marchedEffectiveness(ntu, ratio), 0.012)
          << "NTU " << ntu << ", ratio " << ratio;
}

// Kays and London, "Compact Heat Exchangers", cross-flow with both fluids unmixed (from memory).
TEST(Coil, followsPublishedValues) {
  struct Row {
    double ntu, ratio, effectiveness;
  };
  for (const Row row : {Row{1, 1, 0.476}, {2, 1, 0.614}, {3, 1, 0.682}}) {
    EXPECT_NEAR(marchedEffectiveness(row.ntu, row.ratio), row.effectiveness, 0.001);
    EXPECT_NEAR(crossFlowEffectiveness(row.ntu, row.ratio), row.effectiveness, 0.01);
  }
}

// Limits that hold for every arrangement of flow: 1 − exp(−NTU) where one stream does not change, NTU where
// it is small, below the counter-flow value always.
TEST(Coil, keepsToTheLimitsOfEveryExchanger) {
  for (const double ntu : {0.01, 0.5, 1.0, 3.0, 8.0}) {
    EXPECT_NEAR(crossFlowEffectiveness(ntu, 0), 1 - std::exp(-ntu), 1e-12);
    EXPECT_NEAR(crossFlowEffectiveness(ntu, 1e-9), 1 - std::exp(-ntu), 0.005);
    EXPECT_LT(crossFlowEffectiveness(ntu, 1), ntu / (1 + ntu) + 2e-3);
  }
  expectWithin(crossFlowEffectiveness(1e-4, 1), 1e-4, 2e-2);
}

}  // namespace
}  // namespace ductwright::reference
