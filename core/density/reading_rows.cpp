#include "core/density/reading_rows.h"

#include "core/density/words.h"

namespace washfast::density {

QString channelKey(ReadChannel channel)
{
    switch (channel) {
    case ReadChannel::Red:
        return QStringLiteral("red");
    case ReadChannel::Green:
        return QStringLiteral("green");
    case ReadChannel::Blue:
        return QStringLiteral("blue");
    case ReadChannel::Visual:
        break;
    }
    return QStringLiteral("visual");
}

const ChannelReading& channelOf(const RegionReading& region, ReadChannel channel)
{
    switch (channel) {
    case ReadChannel::Red:
        return region.red;
    case ReadChannel::Green:
        return region.green;
    case ReadChannel::Blue:
        return region.blue;
    case ReadChannel::Visual:
        break;
    }
    return region.visual;
}

Result<ReadingFields> readingFields(
    const Measurement& measurement, const RegionReading& region, ReadChannel channel, Evidence cards)
{
    const auto refuse = [&](const char* why) { return Error { Trouble::BadInput, Words::tr(why), region.name }; };
    if (measurement.relative_to_paper)
        return refuse(QT_TRANSLATE_NOOP("Density",
            "Densities relative to the paper are not entered. Mark two references of known density in the photo."));
    const auto& read = channelOf(region, channel);
    if (!read.density)
        return refuse(QT_TRANSLATE_NOOP("Density", "No density was found here."));
    if (read.at_least)
        return Error { Trouble::BadInput,
            Words::tr("The density is at least %1, which is a bound and not a reading, so it is not entered. A lighter "
                      "photo may show more.")
                .arg(*read.density, 0, 'f', 2),
            region.name };
    ReadingFields fields { { QStringLiteral("reading_density"), knownNumber(*read.density, cards) },
        { QStringLiteral("reading_channel"), Known { Value(channelKey(channel)) } },
        { QStringLiteral("reading_method"), Known { Value(QStringLiteral("photo")) } } };
    // What was not measured is cleared, so that nothing of an earlier reading stays beside this density.
    fields.emplace_back(QStringLiteral("reading_spread"), read.sd ? knownNumber(*read.sd) : Known {});
    fields.emplace_back(QStringLiteral("reading_lab_l"), region.lab ? knownNumber(region.lab->l, cards) : Known {});
    fields.emplace_back(QStringLiteral("reading_lab_a"), region.lab ? knownNumber(region.lab->a, cards) : Known {});
    fields.emplace_back(QStringLiteral("reading_lab_b"), region.lab ? knownNumber(region.lab->b, cards) : Known {});
    return fields;
}

} // namespace washfast::density
