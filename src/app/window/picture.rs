//! The very same window, drawn off the screen into a PNG file.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;
use std::sync::mpsc::{Sender, channel};
use std::time::Duration;

use bevy::asset::RenderAssetUsages;
use bevy::camera::RenderTarget;
use bevy::log::LogPlugin;
use bevy::prelude::*;
use bevy::render::RenderPlugin;
use bevy::render::pipelined_rendering::PipelinedRenderingPlugin;
use bevy::render::render_resource::{Extent3d, PollType, TextureDimension, TextureFormat, TextureUsages};
use bevy::render::renderer::RenderDevice;
use bevy::render::view::screenshot::{Screenshot, ScreenshotCaptured};
use bevy::time::TimeUpdateStrategy;
use bevy::window::ExitCondition;
use bevy::winit::WinitPlugin;
use bevy_egui::{EguiGlobalSettings, EguiPlugin, PrimaryEguiContext};

use super::{Held, plugin};
use crate::app::look::theme::Theme;
use crate::app::session::Session;
use crate::{Error, Result};

/// Frames until the panels have found their sizes and the lettering is there.
const SETTLE: u32 = 12;
/// Frames after which a picture that has not come will not come.
const PATIENCE: u32 = 200;
/// Time that every frame pretends to take.
const FRAME: Duration = Duration::from_millis(16);

/// Draws the window of a session, `size` pixels wide and high, into a PNG file at `path`.
///
/// # Errors
/// There is no graphics adapter (a software one will do), or the file can't be written.
pub fn picture(mut session: Session, size: [u32; 2], theme: Theme, path: &Path) -> Result<()> {
    session.settings.theme = theme;
    // Without an adapter the graphics library panics.
    let drawn = catch_unwind(AssertUnwindSafe(|| draw(session, size)));
    let image = drawn.ok().flatten().ok_or_else(|| {
        Error::Asked(
            "no picture could be drawn: there is no graphics adapter. A software one will do; on Debian the packages \
             mesa-vulkan-drivers and libvulkan1 have it"
                .to_owned(),
        )
    })?;
    let write = |source: std::io::Error| Error::Write { path: path.to_owned(), source };
    let picture = image.try_into_dynamic().map_err(|why| write(std::io::Error::other(why)))?;
    picture.to_rgb8().save(path).map_err(|why| write(std::io::Error::other(why)))
}

fn draw(session: Session, size: [u32; 2]) -> Option<Image> {
    let mut app = App::new();
    app.add_plugins(
        DefaultPlugins
            .set(WindowPlugin { primary_window: None, exit_condition: ExitCondition::DontExit, ..default() })
            .set(RenderPlugin { synchronous_pipeline_compilation: true, ..default() })
            .disable::<WinitPlugin>()
            .disable::<PipelinedRenderingPlugin>()
            .disable::<LogPlugin>(),
    );
    app.add_plugins(EguiPlugin::default());
    app.insert_resource(TimeUpdateStrategy::ManualDuration(FRAME));
    app.insert_resource(Held(session));
    app.add_plugins(plugin);
    app.finish();
    app.cleanup();
    app.world_mut().resource_mut::<EguiGlobalSettings>().auto_create_primary_context = false;
    let target = app.world_mut().resource_mut::<Assets<Image>>().add(canvas(size));
    app.world_mut().spawn((Camera2d, RenderTarget::Image(target.clone().into()), PrimaryEguiContext));
    for _ in 0..SETTLE {
        frame(&mut app);
    }
    let (sender, receiver) = channel();
    app.world_mut().spawn(Screenshot::image(target)).observe(hand_over(sender));
    for _ in 0..PATIENCE {
        frame(&mut app);
        if let Ok(image) = receiver.try_recv() {
            return Some(image);
        }
    }
    None
}

fn hand_over(sender: Sender<Image>) -> impl FnMut(On<ScreenshotCaptured>) {
    move |captured| {
        // Nobody listens once the first picture has come.
        let _ = sender.send(captured.image.clone());
    }
}

fn canvas([width, height]: [u32; 2]) -> Image {
    let size = Extent3d { width, height, depth_or_array_layers: 1 };
    let format = TextureFormat::Rgba8UnormSrgb;
    let mut image = Image::new_uninit(size, TextureDimension::D2, format, RenderAssetUsages::RENDER_WORLD);
    image.texture_descriptor.usage |= TextureUsages::RENDER_ATTACHMENT;
    image
}

/// One frame, waiting until it is drawn.
fn frame(app: &mut App) {
    app.update();
    let wait = PollType::Wait { submission_index: None, timeout: None };
    // A device that is lost shows as a picture that never comes.
    let _ = app.world().resource::<RenderDevice>().wgpu_device().poll(wait);
}
