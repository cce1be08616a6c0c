//! Logs written by hand.

pub(super) const GPX: &str = "<?xml version=\"1.0\"?>\n<gpx xmlns=\"http://www.topografix.com/GPX/1/1\" version=\"1.1\">\n\
    <trk><trkseg>\n\
    <trkpt lat=\"44.001\" lon=\"-29.999\"><ele>125</ele><time>2026-05-24T12:00:07.5</time></trkpt>\n\
    </trkseg></trk>\n\
    <trk><trkseg>\n\
    <trkpt lat=\"44\" lon=\"-30\"><ele>110</ele><time>2026-05-24T12:00:00Z</time><extensions><speed>9</speed></extensions></trkpt>\n\
    <trkpt lat=\"44\" lon=\"-29.9999\"><time>2026-05-24T14:00:01+02:00</time></trkpt>\n\
    <trkpt lat=\"44.0002\" lon=\"-29.9999\"><ele>130</ele><time>2026-05-24T12:00:02.000Z</time></trkpt>\n\
    </trkseg></trk>\n</gpx>\n";

/// The same three samples: 0, 0.5 and 1.5 s, at the datum, 0.0001 degrees north, 0.0001 east and 0.0002 north of it; with the
/// heights above home that come of them.
pub(super) const TABLES: [(&str, &str, [f64; 3]); 10] = [
    (
        "plain.csv",
        "time_s,lat,lon,height_above_home_m\n10,44,-30,50\n10.5,44.0001,-30,51\n11.5,44.0002,-29.9999,52\n",
        HIGH,
    ),
    (
        "comma.txt",
        "\u{feff}Time;Latitude;Longitude;Rel alt (m)\r\n12:00:00,0;44,0;-30;50\r\n12:00:00,5;44,0001;-30;51\r\n12:00:01,5;44,0002;-29,9999;52\r\n",
        HIGH,
    ),
    (
        "quoted.csv",
        "\"Time\",\"Lat\",\"Lon\",\"AltAboveHome(cm)\"\n\"0\",\"44\",\"-30\",\"5000\"\n\"0,5\",\"44,0001\",\"-30\",\"5100\"\n\"1,5\",\"44,0002\",\"-29,9999\",\"5200\"\n",
        HIGH,
    ),
    (
        "unix.csv",
        "timestamp,lat,lon,altitude_msl_m\n1779624000000,44,-30,50\n1779624000500,44.0001,-30,51\n1779624001500,44.0002,-29.9999,52\n",
        [0.0, 1.0, 2.0],
    ),
    (
        "day.csv",
        "Date,Time,GPS,Height AGL (mm)\n2026-05-24,23:59:59.0,44 -30,50000\n2026-05-24,23:59:59.5,44.0001 -30,51000\n2026-05-25,00:00:00.5,44.0002 -29.9999,52000\n",
        HIGH,
    ),
    (
        "midnight.csv",
        "utc\tlat\tlon\trel alt\n23:59:59\t44\t-30\t50\n23:59:59.5\t44.0001\t-30\t51\n00:00:00.5\t44.0002\t-29.9999\t52\n",
        HIGH,
    ),
    (
        "units.csv",
        "pilot: nobody\n# comment\nTime,Lat,Lon,Height\nms,deg,deg,m\n0,44,-30,50\n500,44.0001,-30,51\n1500,44.0002,-29.9999,52\n",
        HIGH,
    ),
    (
        "sides.csv",
        "TimeUS,Lat,Lng,RelAlt(m)\n1000000,44N,30W,50\n1500000,44.0001N,30W,51\n2500000,44.0002N,29.9999W,52\n",
        HIGH,
    ),
    (
        "whole.csv",
        "ISO time,lat,lon,height (m)\n2026-05-24T12:00:00Z,440000000,-300000000,50\n2026-05-24T12:00:00.5Z,440001000,-300000000,51\n2026-05-24T12:00:01.5Z,440002000,-299999000,52\n",
        HIGH,
    ),
    // 11.1112 m and 8.0206 m: a tenth of what the series gives for a thousandth of a degree.
    ("metres.csv", "time_s;east_m;north_m;height_m\n0;0;0;50\n0.5;0;11.1112;51\n1.5;8.0206;22.2224;52\n", HIGH),
];

const HIGH: [f64; 3] = [50.0, 51.0, 52.0];

/// A table without a fault: two rows a second, north at 22 m/s.
pub(super) fn table(count: usize) -> String {
    let rows = (0..count).map(|index| row(index) + "\n");
    format!("{HEADER}\n{}", rows.collect::<String>())
}

pub(super) const HEADER: &str = "time_s,latitude_deg,longitude_deg,height_above_home_m";

pub(super) fn row(index: usize) -> String {
    let index = index as f64;
    format!("{},{:.4},-30,50", index / 2.0, 44.0 + index * 1e-4)
}

/// A sentence with its checksum.
pub(super) fn sentence(body: &str) -> String {
    let sum = body.bytes().fold(0_u8, |sum, byte| sum ^ byte);
    format!("${body}*{sum:02X}\r\n")
}

/// Four moments, the last two of the next day: 0.0001 degrees of latitude apart, which are 0.006 minutes.
pub(super) fn nmea() -> String {
    let moments = ["235959.00", "235959.50", "000000.00", "000000.50"];
    let told = moments.iter().enumerate().map(|(index, time)| {
        let place = format!("440{:.4},N,03000.0000,W", index as f64 * 0.006);
        let gga = sentence(&format!("GNGGA,{time},{place},1,12,0.8,{}.0,M,50.0,M,,", 120 + index));
        let rmc = sentence(&format!("GNRMC,{time},A,{place},43.2,0.0,240526,,,A"));
        gga + &rmc + &sentence("GPVTG,0.0,T,,M,43.2,N,80.0,K")
    });
    told.collect()
}

pub(super) const IGC: &str = "AXXX001\r\nHFDTE240526\r\nI033637TAS3838LAD3939TDS\r\nLXXXa comment\r\n\
    B1200004400000N03000000WA00050000909000\r\n\
    B1200014400010N03000000WV00060000009000\r\n\
    B1200014400020N03000000WA00070001109055\r\nGABCDEF\r\n";
