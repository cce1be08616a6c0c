//! What is damaged: a good input of every kind that the program reads.

pub(super) const SCENARIOS: [&str; 3] = [
    include_str!("../fixtures/tight-strip.json"),
    include_str!("../../scenarios/quillmead-aerodrome.json"),
    include_str!("../../scenarios/sallowmouth-head.json"),
];

pub(super) const FIELD: &str = include_str!("../fixtures/cotterfold-elbow.geojson");

pub(super) const RECORDINGS: [&str; 2] = [
    include_str!("../fixtures/rehearsals/never-taken-over.jsonl"),
    include_str!("../fixtures/rehearsals/hard-landing.jsonl"),
];

pub(super) const SHAPES: [(&str, &str); 3] = [
    ("a.geojson", FIELD),
    (
        "a.kml",
        "<?xml version=\"1.0\"?>\n<kml xmlns=\"http://www.opengis.net/kml/2.2\"><Document><name>Field &amp; wood</name>\n\
         <Placemark><name>Boundary</name><Polygon><outerBoundaryIs><LinearRing>\n\
         <coordinates>-30.003,43.999,0 -29.997,43.999,0 -29.997,44.001,0 -30.003,44.001,0 -30.003,43.999,0</coordinates>\n\
         </LinearRing></outerBoundaryIs></Polygon></Placemark>\n\
         <Placemark><name>Flight line</name><LineString>\n<coordinates>-30.001,44 -29.999,44</coordinates>\n\
         </LineString></Placemark>\n<Placemark><name>Home</name><Point><coordinates>-30,44</coordinates></Point></Placemark>\n\
         </Document></kml>\n",
    ),
    ("a.gpx", GPX),
];

const GPX: &str = "<?xml version=\"1.0\"?>\n<gpx xmlns=\"http://www.topografix.com/GPX/1/1\" version=\"1.1\">\n\
    <wpt lat=\"44\" lon=\"-30\"><name>Home</name></wpt>\n<trk><trkseg>\n\
    <trkpt lat=\"44\" lon=\"-30\"><ele>110</ele><time>2026-05-24T12:00:00Z</time></trkpt>\n\
    <trkpt lat=\"44\" lon=\"-29.9999\"><ele>115</ele><time>2026-05-24T12:00:01Z</time></trkpt>\n\
    <trkpt lat=\"44.0002\" lon=\"-29.9999\"><ele>130</ele><time>2026-05-24T14:00:02.000+02:00</time></trkpt>\n\
    <trkpt lat=\"44.0004\" lon=\"-29.9999\"><ele>135</ele><time>2026-05-24T12:00:03Z</time></trkpt>\n\
    </trkseg></trk>\n</gpx>\n";

const IGC: &str = "AXXX001\r\nHFDTE240526\r\nI033637TAS3838LAD3939TDS\r\nLXXXa comment\r\n\
    B1200004400000N03000000WA00050000909000\r\nB1200014400010N03000000WV00060000009000\r\n\
    B1200014400020N03000000WA00070001109055\r\nGABCDEF\r\n";

/// Logs by the ending of their names.
pub(super) fn logs() -> [(&'static str, String); 5] {
    let rows = (0..12).map(|index| {
        let index = f64::from(index);
        format!("{},{:.4},-30,50,{}\n", index / 2.0, 44.0 + index * 1e-4, 20.0 + index)
    });
    let table =
        format!("time_s,latitude_deg,longitude_deg,height_above_home_m,airspeed_mps\n{}", rows.collect::<String>());
    let comma = "Time;Latitude;Longitude;Rel alt (m)\r\n12:00:00,0;44,0;-30;50\r\n12:00:00,5;44,0001;-30;51\r\n\
                 12:00:01,5;44,0002;-29,9999;52\r\n";
    [("a.gpx", GPX.into()), ("a.csv", table), ("comma.txt", comma.into()), ("a.nmea", nmea()), ("a.igc", IGC.into())]
}

/// Four moments, each in two sentences with their checksums.
fn nmea() -> String {
    let sentence = |body: String| {
        let sum = body.bytes().fold(0_u8, |sum, byte| sum ^ byte);
        format!("${body}*{sum:02X}\r\n")
    };
    let moments = ["235959.00", "235959.50", "000000.00", "000000.50"].into_iter().zip(0..);
    let told = moments.map(|(time, index)| {
        let place = format!("440{:.4},N,03000.0000,W", f64::from(index) * 0.006);
        sentence(format!("GNGGA,{time},{place},1,12,0.8,{}.0,M,50.0,M,,", 120 + index))
            + &sentence(format!("GNRMC,{time},A,{place},43.2,0.0,240526,,,A"))
    });
    told.collect()
}

pub(super) const WEATHER: [&str; 5] = [
    "EGXX 241250Z 24012G22KT 210V270 9999 FEW035 SCT060 14/07 Q1014 NOSIG",
    "METAR KXXX 241253Z AUTO VRB03KT 1 1/2SM BR OVC005 M02/M05 A2992 RMK AO2 SLP134",
    "SPECI LXXX 241300Z 00000KT CAVOK 31/12 Q1009=",
    "ZXXX 240600Z 33008MPS 4000 -SN BKN012 M11/M14 Q1030 TEMPO 2000",
    "EGXX 241250Z /////KT //// // ////// ///// Q////",
];

pub(super) const QUANTITIES: [&str; 8] =
    ["15 kt", "1.5e2 m", "-3 ft", "0,75 kg", "5'", "20 \u{b0}C", "5000 mAh", "240 deg"];
