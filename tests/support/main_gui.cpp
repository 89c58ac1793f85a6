// Runs the tests of a room with widgets, on the offscreen platform and with the English plurals.
#include "app/translations.h"

#include <QApplication>
#include <QLocale>
#include <QStyleFactory>
#include <gtest/gtest.h>

int main(int argc, char** argv)
{
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM"))
        qputenv("QT_QPA_PLATFORM", "offscreen");
    ::testing::InitGoogleTest(&argc, argv);
    QLocale::setDefault(QLocale::c());
    QApplication application(argc, argv);
    QApplication::setStyle(QStyleFactory::create(QStringLiteral("Fusion")));
    washfast::installTranslations(application);
    return RUN_ALL_TESTS();
}
