#pragma once

#include <QString>
#include <memory>

#include "project/project.h"

namespace ductwright::ui {

// Makes a project of the person's own from the tables of the invented sample building, among the documents, so that it
// can be changed freely. An earlier one is kept as it is; the new one has a number.
Result<std::unique_ptr<project::OpenProject>> makeSample(const QString& samples, const project::Author& author);
// Whether a project is such a copy.
bool isSample(const QString& path);

}  // namespace ductwright::ui
