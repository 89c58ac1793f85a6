#include "core/causes/next_prints.h"

#include <QJsonArray>
#include <cmath>

namespace washfast::causes {

namespace {

QJsonValue valueOf(const Setting& setting)
{
    return std::visit([](const auto& value) { return QJsonValue(value); }, setting.value);
}

} // namespace

QString purposeKey(Purpose purpose)
{
    switch (purpose) {
    case Purpose::Untangle:
        return QStringLiteral("untangle");
    case Purpose::Decide:
        return QStringLiteral("decide");
    case Purpose::Map:
        break;
    }
    return QStringLiteral("map");
}

QString roleKey(PlannedPrint::Role role)
{
    switch (role) {
    case PlannedPrint::Role::KnownGood:
        return QStringLiteral("known_good");
    case PlannedPrint::Role::Unexposed:
        return QStringLiteral("unexposed");
    case PlannedPrint::Role::Trial:
        break;
    }
    return QStringLiteral("trial");
}

QJsonObject toJson(const NextPrints& plan)
{
    QJsonArray prints;
    for (const PlannedPrint& print : plan.prints) {
        QJsonObject settings;
        for (const Setting& setting : print.settings)
            settings.insert(setting.factor, valueOf(setting));
        prints.append(QJsonObject { { QStringLiteral("role"), roleKey(print.role) },
            { QStringLiteral("count"), print.count }, { QStringLiteral("split_sheet"), print.split_sheet },
            { QStringLiteral("settings"), settings }, { QStringLiteral("why"), print.why } });
    }
    return { { QStringLiteral("purpose"), purposeKey(plan.purpose) }, { QStringLiteral("prints"), prints },
        { QStringLiteral("information_gain"),
            std::isfinite(plan.information_gain) ? QJsonValue(plan.information_gain) : QJsonValue() },
        { QStringLiteral("chance"), plan.chance ? QJsonValue(*plan.chance) : QJsonValue() },
        { QStringLiteral("prints_needed_for_power_80"),
            plan.prints_needed_for_power_80 ? QJsonValue(*plan.prints_needed_for_power_80) : QJsonValue() },
        { QStringLiteral("warnings"), QJsonArray::fromStringList(plan.warnings) } };
}

} // namespace washfast::causes
