#include "judging.h"
namespace ductwright::verdict {
void judgeLockout(const Judging&) {}
}  // namespace ductwright::verdict
