// Installs the texts of a language. English too has a file: it holds the plurals.
#pragma once

class QCoreApplication;

namespace washfast {

void installTranslations(QCoreApplication& application);

} // namespace washfast
