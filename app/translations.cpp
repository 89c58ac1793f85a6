#include "app/translations.h"

#include <QCoreApplication>
#include <QLibraryInfo>
#include <QTranslator>

static void initI18nResource()
{
    Q_INIT_RESOURCE(i18n);
}

namespace washfast {

void installTranslations(QObject& owner, const QLocale& locale, const QString& folder)
{
    initI18nResource();
    const auto separator = QStringLiteral("_");
    auto* ours = new QTranslator(&owner);
    if (!ours->load(locale, QStringLiteral("washfast"), separator, folder)
        && !ours->load(QStringLiteral(":/i18n/washfast_en.qm"))) {
        delete ours;
        return;
    }
    // The toolkit speaks the language that was found, so that a window has one language.
    auto* toolkit = new QTranslator(&owner);
    if (toolkit->load(QLocale(ours->language()), QStringLiteral("qtbase"), separator,
            QLibraryInfo::path(QLibraryInfo::TranslationsPath)))
        QCoreApplication::installTranslator(toolkit);
    else
        delete toolkit;
    QCoreApplication::installTranslator(ours);
}

} // namespace washfast
