#include "verdict/review.h"

#include "review_rules.h"

namespace ductwright::verdict {

std::vector<Finding> deskReview(const Snapshot& project, const ReviewLimits& limits) {
  Review review(project, limits);
  const std::vector<ProfileNeed> needs = profileNeeds(project, limits);
  for (std::size_t i = 0; i < project.units.size(); ++i) {
    const Unit& unit = project.units[i]->unit;
    if (!reviewAbsurdValues(review, unit)) {
      reviewFlows(review, unit);
      reviewInlet(review, unit);
      reviewHeat(review, unit);
      reviewDischarge(review, unit);
      reviewAirHandler(review, unit);
    }
    reviewController(review, unit, needs[i]);
    reviewRoomSensor(review, unit);
  }
  reviewTags(review);
  reviewNetwork(review);
  reviewDiversity(review);
  reviewProfiles(review);
  reviewOutliers(review);
  reviewSettings(review);
  return review.take();
}

}  // namespace ductwright::verdict
