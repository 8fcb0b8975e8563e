#pragma once

#include <stop_token>
#include <string>

#include "paper.h"
#include "quantity/result.h"
#include "report/content.h"
#include "report/report.h"

namespace ductwright::report {

// Sets a document on pages and writes it to `path`, which is removed again on failure or cancel.
Result<void> writePdf(const Document& document, const Paper& paper, fleet::Timestamp created, const std::string& path,
                      const Progress& progress, std::stop_token stop);

}  // namespace ductwright::report
