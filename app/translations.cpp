#include "app/translations.h"

#include <QCoreApplication>
#include <QLocale>
#include <QTranslator>

static void initI18nResource()
{
    Q_INIT_RESOURCE(i18n);
}

namespace washfast {

void installTranslations(QCoreApplication& application)
{
    initI18nResource();
    auto* translator = new QTranslator(&application);
    if (!translator->load(QLocale(), QStringLiteral("washfast"), QStringLiteral("_"), QStringLiteral(":/i18n"))
        && !translator->load(QStringLiteral(":/i18n/washfast_en.qm")))
        return;
    QCoreApplication::installTranslator(translator);
}

} // namespace washfast
