#pragma once

#include <QStringList>

namespace ductwright::ui {

// The projects opened lately, newest first; those that are gone are left out.
QStringList recentProjects();
void rememberProject(const QString& path);

}  // namespace ductwright::ui
