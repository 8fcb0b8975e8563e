#include "fleet/id.h"

#include <gtest/gtest.h>

#include <unordered_set>

namespace ductwright::fleet {
namespace {

constexpr std::array<std::uint8_t, 10> kRandom{0xFF, 0xEE, 0xDD, 0xCC, 0xBB, 0xAA, 0x99, 0x88, 0x77, 0x66};

TEST(Uuid, isWrittenAndReadAlike) {
  const auto id = Uuid::fromText("0192F0C1-2a3b-7c4d-8e5f-60718293a4b5");
  ASSERT_TRUE(id);
  EXPECT_EQ(id->text(), "0192f0c1-2a3b-7c4d-8e5f-60718293a4b5");
  EXPECT_EQ(Uuid::fromText(id->text()), id);
}

TEST(Uuid, refusesWhatIsNotOne) {
  for (const auto* text : {"", "0192f0c12a3b7c4d8e5f60718293a4b5", "0192f0c1-2a3b-7c4d-8e5f-60718293a4b",
                           "0192f0c1-2a3b-7c4d-8e5f-60718293a4b5x", "0192f0g1-2a3b-7c4d-8e5f-60718293a4b5",
                           "0192f0c112a3b-7c4d-8e5f-60718293a4b5", "{192f0c1-2a3b-7c4d-8e5f-60718293a4b5"})
    EXPECT_FALSE(Uuid::fromText(text)) << text;
}

// RFC 9562, 5.7: 48 bits of milliseconds, version 7, variant 10; its appendix A.6 has this time and text.
TEST(Uuid, ofVersionSevenBeginsWithItsTime) {
  const Uuid id =
      Uuid::version7(0x017F22E279B0, {0x0C, 0xC3, 0x18, 0xC4, 0xDC, 0x0C, 0x0C, 0x07, 0x39, 0x8F});
  EXPECT_EQ(id.text(), "017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
}

TEST(Uuid, ofALaterTimeIsGreater) {
  EXPECT_LT(Uuid::version7(1000, kRandom), Uuid::version7(1001, {}));
}

TEST(Uuid, isNullOnlyWhereNothingIsSet) {
  EXPECT_TRUE(Uuid{}.isNull());
  EXPECT_FALSE(Uuid::version7(0, {}).isNull());
}

TEST(IdHash, tellsIdsOfOneMillisecondApart) {
  std::unordered_set<UnitId, IdHash> ids;
  for (std::uint8_t i = 0; i < 200; ++i) {
    auto random = kRandom;
    random[9] = i;
    ids.insert(UnitId{Uuid::version7(5, random)});
  }
  EXPECT_EQ(ids.size(), 200U);
  EXPECT_NE(IdHash{}(Uuid::version7(5, kRandom)), IdHash{}(Uuid::version7(5, {})));
}

}  // namespace
}  // namespace ductwright::fleet
