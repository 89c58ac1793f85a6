#include "app/cli/targets.h"

#include "app/cli/words.h"

namespace washfast::cli {

Error withAdvice(Error error, bool replace)
{
    if (!replace && files::standsThere(error.where))
        error.says += QLatin1Char(' ') + Words::tr("With --replace it is replaced.");
    return error;
}

std::optional<Error> whyNotWritten(const QString& path, bool replace)
{
    if (path.endsWith(QLatin1String(".washfast"), Qt::CaseInsensitive) && files::standsThere(path))
        return Error { Trouble::BadInput, Words::tr("This is a notebook, which is never replaced by another file."),
            path };
    if (auto wrong = files::whyNotWrite(path, existing(replace)))
        return withAdvice(*wrong, replace);
    return {};
}

} // namespace washfast::cli
