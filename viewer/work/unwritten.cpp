#include "grid/problem.h"
#include "viewer/work/edge_list.h"
#include "viewer/work/glass.h"
#include "viewer/work/looks.h"
#include "viewer/work/making.h"
#include "viewer/work/opened.h"
#include "viewer/work/recovery.h"
#include "viewer/work/settings.h"
#include "viewer/work/strength.h"
#include "viewer/work/studio.h"
namespace tidemark::viewer {
using std::filesystem::path;
[[noreturn]] static void unwritten() { throw grid::InternalError("not written yet"); }
struct Making::Inside { path picture; };
Making::Making(const path&, std::function<void()>) { unwritten(); }
Making::~Making() = default;
const path& Making::picture_file() const { return in_->picture; }
std::shared_ptr<const reference::PictureMasses> Making::found() const { return {}; }
bool Making::busy() const { return false; }
std::string Making::problem() const { return {}; }
int Making::groups() const { return 3; }
void Making::set_groups(int) {}
void Making::set_simplify(double) {}
int Making::mass_at(double, double) const { return 0; }
void Making::merge(int, int) {}
void Making::push(int, int) {}
void Making::split(int, double, double, double, double) {}
void Making::name(int, const std::string&) {}
void Making::brush(int, const std::vector<reference::Point>&, double) {}
void Making::lasso(int, const std::vector<reference::Point>&) {}
bool Making::can_undo() const { return false; }
bool Making::can_redo() const { return false; }
void Making::undo() {}
void Making::redo() {}
Pixels Making::pixels() const { return {}; }
void Making::write_plan(const path&) {}
double Making::writing() const { return -1; }
path Making::written() const { return {}; }
std::vector<DriesTo> dries_to(const plan::Plan&) { return {}; }
} // namespace tidemark::viewer
