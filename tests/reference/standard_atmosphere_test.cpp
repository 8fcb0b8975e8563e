#include "air/moist_air.h"
#include "imperial.h"
#include "table.h"

namespace ductwright::reference {
namespace {

using air::standardAtmosphere;
using quantity::feet;
using quantity::metres;

struct Row {
  double elevation, pressure;
};

// ASHRAE Handbook of Fundamentals 2017, chapter 1, table 1, as the tests of PsychroLib quote it
// (github.com/psychrometrics/psychrolib, commit 3066345).
// The formula is the handbook's and parts from its table by 0.002 psia at 10 000 ft, 0.007 at 30 000.
TEST(StandardAtmosphere, followsThePublishedTableInFeet) {
  for (const Row row :
       {Row{-1000, 15.236}, {0, 14.696}, {1000, 14.175}, {3000, 13.173}, {10000, 10.108}, {30000, 4.371}})
    EXPECT_NEAR(standardAtmosphere(feet(row.elevation)).si() / kPsi, row.pressure,
                row.elevation > 10000 ? 0.01 : 0.003)
        << row.elevation;
}

TEST(StandardAtmosphere, followsThePublishedTableInMetres) {
  for (const Row row :
       {Row{-500, 107478}, {0, 101325}, {500, 95461}, {1000, 89875}, {4000, 61640}, {10000, 26436}})
    EXPECT_NEAR(standardAtmosphere(metres(row.elevation)).si(), row.pressure, 1) << row.elevation;
}

// PsychroLib 1.1.1 from npm; psychrometrics/make_table.mjs makes the tables again.
TEST(StandardAtmosphere, agreesWithAnIndependentLibrary) {
  for (const auto& row : rowsOf("psychrometrics/standard_atmosphere_si.csv", 2))
    expectWithin(standardAtmosphere(metres(row[0])).si(), row[1], 1e-8);
  // The library's I-P formula has its own rounded constants.
  for (const auto& row : rowsOf("psychrometrics/standard_atmosphere_ip.csv", 2))
    expectWithin(standardAtmosphere(feet(row[0])).si() / kPsi, row[1], 3e-5);
}

}  // namespace
}  // namespace ductwright::reference
