// A window without its frame: a desk on a notebook and the real boxes, told what to do by lines on standard input. Each
// is answered by one on standard output: "ok", or what went wrong.
//
//     washfast_window_child NOTEBOOK
//
//     add CODE      one more print          box      the box for opening a file, on the notebook's folder, and Escape
//     open, close   the notebook            look     looks into the notebook's files as a foreign file dialog does
//     turn          handles what waits, and looks for changes           drop     leaves without closing anything
#include "tests/support/file_boxes.h"
#include "tests/support/kernel_locks.h"
#include "tests/support/settable_clock.h"

#include "app/cli/whole_catalogue.h"
#include "ui/common/desk.h"

#include <QApplication>
#include <iostream>
#include <string>

using namespace washfast;

namespace {

class Window {
public:
    explicit Window(QString notebook)
        : path_(std::move(notebook))
    {
    }
    std::string run(const std::string& verb, const std::string& word)
    {
        if (verb == "open")
            return open();
        if (verb == "look")
            test::lookIntoAll(path_);
        if (verb == "box" && !test::escapeFromOpenBox(path_))
            return "the box does not show the notebook";
        if (verb == "close")
            desk_.reset();
        if (verb == "add")
            return add(QString::fromStdString(word));
        if (verb == "turn" && desk_) {
            QCoreApplication::processEvents();
            desk_->lookForChanges();
        }
        return wrong_;
    }

private:
    std::string open()
    {
        auto file = store::NotebookFile::open(path_, catalogue_);
        if (!file)
            return file.error().sentence().toStdString();
        desk_ = std::make_unique<ui::Desk>(std::move(*file), clock_);
        QObject::connect(
            desk_.get(), &ui::Desk::trouble, [this](const Error& error) { wrong_ = error.sentence().toStdString(); });
        return wrong_;
    }
    std::string add(const QString& code)
    {
        wrong_ = "ok";
        (void)desk_->perform(QStringLiteral("Add"), [&](store::Writer& writer) -> Outcome {
            const auto print = writer.add(Entity::Print, 0, { { QStringLiteral("print_code"), Known { code } } });
            return print ? Outcome(Done {}) : Outcome(print.error());
        });
        return std::exchange(wrong_, "ok");
    }

    QString path_;
    Catalogue catalogue_ = wholeCatalogue();
    test::SettableClock clock_;
    std::unique_ptr<ui::Desk> desk_;
    std::string wrong_ = "ok";
};

} // namespace

int main(int argc, char** argv)
{
    const QApplication application(argc, argv);
    Window window(QCoreApplication::arguments().value(1));
    for (std::string line; std::getline(std::cin, line);) {
        const auto space = line.find(' ');
        const auto word = space == std::string::npos ? std::string() : line.substr(space + 1);
        std::cout << window.run(line.substr(0, space), word) << std::endl; // NOLINT: it is waited for
    }
    return 0;
}
