#include <gtest/gtest.h>

#include <QAbstractItemModelTester>
#include <QFont>
#include <QSignalSpy>

#include "sample_state.h"
#include "ui/deficiencies/deficiency_filter.h"
#include "ui/fleet/fleet_model.h"
#include "ui/unit/checks_model.h"
#include "ui/unit/readings_model.h"

namespace ductwright::ui {
namespace {

using fleet::Procedure;
using Mode = QAbstractItemModelTester::FailureReportingMode;

TEST(ReadingsModel, StrikesAWithdrawnReadingInPlace) {
  ReadingsModel model;
  const QAbstractItemModelTester tester(&model, Mode::Fatal);
  fleet::UnitRecord record = *inventedFleet().units[0];
  model.show(record, Procedure::airflow, 1, quantity::System::ip);
  ASSERT_EQ(model.rowCount(), 2);
  QSignalSpy changed(&model, &QAbstractItemModel::dataChanged), reset(&model, &QAbstractItemModel::modelReset);
  record.readings[1].withdrawn = true;
  model.show(record, Procedure::airflow, 1, quantity::System::ip);
  ASSERT_EQ(changed.count(), 1);
  EXPECT_EQ(changed[0][0].toModelIndex().row(), 1);
  EXPECT_EQ(reset.count(), 0);
  EXPECT_TRUE(model.index(1, ReadingsModel::value).data(Qt::FontRole).value<QFont>().strikeOut());
  EXPECT_EQ(model.index(1, ReadingsModel::note).data().toString(), "withdrawn");
  EXPECT_FALSE(model.index(0, ReadingsModel::value).data(Qt::FontRole).value<QFont>().strikeOut());
}

TEST(ReadingsModel, ShowsOneRunAtATime) {
  ReadingsModel model;
  const QAbstractItemModelTester tester(&model, Mode::Fatal);
  fleet::UnitRecord record = *inventedFleet().units[0];
  record.readings[1].run = 2;
  model.show(record, Procedure::airflow, 2, quantity::System::ip);
  ASSERT_EQ(model.rowCount(), 1);
  EXPECT_EQ(model.index(0, ReadingsModel::step).data().toString(), "cooling min");
  model.show(record, Procedure::dischargeRise, 1, quantity::System::ip);
  EXPECT_EQ(model.rowCount(), 0);
}

TEST(ChecksModel, ShowsDifferencesAsWholeNumbers) {
  ChecksModel model;
  const QAbstractItemModelTester tester(&model, Mode::Fatal);
  verdict::UnitVerdict verdict;
  verdict::Check check;
  check.kind = verdict::CheckKind::reportedAgainstMeasured;
  check.outcome = verdict::Outcome::pass;
  check.expected = quantity::cfm(400).si();
  check.measured = quantity::cfm(-20).si();
  check.low = quantity::cfm(-40).si();
  check.high = quantity::cfm(40).si();
  check.conformity = 0.98;
  verdict.checks.push_back(check);
  model.show(verdict, verdict::Criterion::airflow, quantity::System::ip);
  const auto cell = [&](ChecksModel::Column column) { return model.index(0, column).data().toString(); };
  EXPECT_EQ(cell(ChecksModel::measured), "380 cfm");
  EXPECT_EQ(cell(ChecksModel::low), "360 cfm");
  EXPECT_EQ(cell(ChecksModel::high), "440 cfm");
  EXPECT_EQ(cell(ChecksModel::conformity), "98 %");
  EXPECT_EQ(cell(ChecksModel::doubt), "—");
}

fleet::Deficiency deficiency(std::uint8_t n, fleet::Party party, fleet::DeficiencyState state) {
  fleet::Deficiency made;
  made.id = {invented(n)};
  made.number = n;
  made.unit = {invented(1)};
  made.party = party;
  made.title = "Invented trouble";
  made.moves = {{state, {}, "Ada Invented", fleet::Role::agent, ""}};
  return made;
}

TEST(DeficiencyModel, TellsOfTheOneThatMoved) {
  DeficiencyModel model;
  const QAbstractItemModelTester tester(&model, Mode::Fatal);
  fleet::Snapshot project = inventedFleet();
  project.deficiencies = {deficiency(1, fleet::Party::balancer, fleet::DeficiencyState::raised),
                          deficiency(2, fleet::Party::balancer, fleet::DeficiencyState::raised)};
  model.setState(stateOf(project));
  QSignalSpy changed(&model, &QAbstractItemModel::dataChanged);
  project.deficiencies[1].moves.push_back({fleet::DeficiencyState::accepted, {}, "Cy Invented", fleet::Role::contractor, ""});
  model.setState(stateOf(project));
  ASSERT_EQ(changed.count(), 1);
  EXPECT_EQ(changed[0][0].toModelIndex().row(), 1);
  EXPECT_EQ(model.index(1, DeficiencyModel::state).data().toString(), "accepted");
  EXPECT_EQ(model.index(1, DeficiencyModel::unit).data().toString(), "1-1");
}

TEST(DeficiencyFilter, ShowsWhatIsOpenOfOneParty) {
  DeficiencyModel model;
  DeficiencyFilter filter(&model);
  fleet::Snapshot project = inventedFleet();
  project.deficiencies = {deficiency(1, fleet::Party::balancer, fleet::DeficiencyState::raised),
                          deficiency(2, fleet::Party::balancer, fleet::DeficiencyState::proven),
                          deficiency(3, fleet::Party::controlsContractor, fleet::DeficiencyState::disputed)};
  model.setState(stateOf(project));
  filter.choose({});
  EXPECT_EQ(filter.rowCount(), 2);
  DeficiencyFilter::Choice choice;
  choice.party = fleet::Party::balancer;
  filter.choose(choice);
  EXPECT_EQ(filter.rowCount(), 1);
  choice.states = DeficiencyFilter::States::all;
  filter.choose(choice);
  EXPECT_EQ(filter.rowCount(), 2);
}

TEST(NaturalOrder, ComparesNumbersByValue) {
  EXPECT_TRUE(naturallyLess("2-9", "2-14"));
  EXPECT_TRUE(naturallyLess("2-14", "10-1"));
  EXPECT_FALSE(naturallyLess("2-14", "2-9"));
  EXPECT_FALSE(naturallyLess("2-09", "2-9") || naturallyLess("2-9", "2-09"));
  EXPECT_TRUE(naturallyLess("2-1", "2-1a"));
  EXPECT_TRUE(naturallyLess("a", "B"));
}

}  // namespace
}  // namespace ductwright::ui
