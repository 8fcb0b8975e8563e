#include "judging.h"
namespace ductwright::verdict {
void judgeRise(const Judging&) {}
}  // namespace ductwright::verdict
