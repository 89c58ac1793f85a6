#include "ui/reading/session_references.h"

#include "ui/reading/stored_cards.h"

#include <QSettings>

namespace washfast::ui {

namespace {

constexpr auto group = "reading";

QString sessionKey(Desk& desk)
{
    return QStringLiteral("%1 %2").arg(desk.file().path()).arg(desk.session().value);
}

} // namespace

References rememberedReferences(Desk& desk)
{
    QSettings settings;
    settings.beginGroup(QLatin1String(group));
    References out;
    if (settings.value(QStringLiteral("session")).toString() != sessionKey(desk))
        return out;
    out.white = settings.value(QStringLiteral("white_density"), out.white).toDouble();
    out.grey = settings.value(QStringLiteral("grey_density"), out.grey).toDouble();
    out.measured = settings.value(QStringLiteral("cards_measured"), false).toBool();
    const auto card = cardOf(desk.notebook(), settings.value(QStringLiteral("card")).toLongLong());
    return card && !card->retired ? against(*card, out) : out;
}

void rememberReferences(Desk& desk, const References& references)
{
    QSettings settings;
    settings.beginGroup(QLatin1String(group));
    settings.setValue(QStringLiteral("session"), sessionKey(desk));
    settings.setValue(QStringLiteral("white_density"), references.white);
    settings.setValue(QStringLiteral("grey_density"), references.grey);
    settings.setValue(QStringLiteral("cards_measured"), references.measured);
    settings.setValue(QStringLiteral("card"), references.card);
}

} // namespace washfast::ui
