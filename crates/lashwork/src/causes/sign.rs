//! What may be found, as lists of outcomes.

use serde::Serialize;

/// A list of what may be found; a finding stands for one or more of `OUTCOMES` outcomes.
pub(super) trait Sign: Copy {
    const OUTCOMES: usize;
    /// Whether it says this one.
    fn says(self, outcome: usize) -> bool;
}

/// Declares a list of what may be found, and after a bar what says less: one of several.
macro_rules! sign {
    ($(#[$doc:meta])* $name:ident, $count:literal { $($(#[$of:meta])* $one:ident = $at:literal),+ $(,)?
        $(; $(#[$any_of:meta])* $any:ident = not 0)? }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
        #[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
        #[serde(rename_all = "snake_case")]
        pub enum $name { $($(#[$of])* $one,)+ $($(#[$any_of])* $any)? }

        impl $name {
            /// Each that may be the case.
            pub const ALL: [Self; $count] = [$(Self::$one),+];
        }

        impl Sign for $name {
            const OUTCOMES: usize = $count;

            fn says(self, outcome: usize) -> bool {
                match self {
                    $(Self::$one => outcome == $at,)+
                    $(Self::$any => outcome != 0,)?
                }
            }
        }
    };
}

sign! {
    /// The clearances of a cylinder's valves, as found before anything is set.
    ///
    /// ```
    /// use lashwork::causes::LashSign;
    /// assert_eq!(LashSign::ALL.len(), 3);
    /// ```
    LashSign, 3 {
        /// All within their limits.
        InLimits = 0,
        /// One is too small.
        Tight = 1,
        /// None is too small, one is too large.
        Loose = 2,
    }
}

sign! {
    /// How the clearances of a cylinder's valves went since they were last set.
    ///
    /// ```
    /// use lashwork::causes::DriftSign;
    /// assert_eq!(DriftSign::ALL.len(), 3);
    /// ```
    DriftSign, 3 {
        /// As those of their mates.
        AsItsMates = 0,
        /// One closes unlike its mates.
        Closing = 1,
        /// One opens unlike its mates.
        Opening = 2,
    }
}

sign! {
    /// How the exhaust valves went together since they were last set.
    ///
    /// ```
    /// use lashwork::causes::SeatSign;
    /// assert_eq!(SeatSign::ALL.len(), 2);
    /// ```
    SeatSign, 2 {
        /// They do not close.
        Hold = 0,
        /// They close, and nothing known speaks against seats that sink for want of lead.
        Sink = 1,
    }
}

sign! {
    /// A cylinder's compression against its mates, dry, and if low with oil.
    ///
    /// ```
    /// use lashwork::causes::CompressionSign;
    /// assert_eq!(CompressionSign::ALL.len(), 3);
    /// ```
    CompressionSign, 3 {
        /// As its mates.
        AsItsMates = 0,
        /// Low, and up with a spoon of oil.
        LowOilHelps = 1,
        /// Low, and no better with oil.
        LowOilNoHelp = 2;
        /// Low; not tried with oil.
        Low = not 0
    }
}

sign! {
    /// Where a cylinder's leak is heard, with air let in at firing TDC.
    ///
    /// ```
    /// use lashwork::causes::LeakSign;
    /// assert_eq!(LeakSign::ALL.len(), 5);
    /// ```
    LeakSign, 5 {
        /// It leaks little.
        Small = 0,
        /// Much, out of the exhaust.
        AtExhaust = 1,
        /// Much, out of the carburettor.
        AtIntake = 2,
        /// Much, out of the breather.
        AtBreather = 3,
        /// Much, into a neighbour, the water or past the gasket.
        AtGasket = 4;
        /// Much; not listened for.
        Large = not 0
    }
}

sign! {
    /// A plug as seen.
    ///
    /// ```
    /// use lashwork::causes::PlugSign;
    /// assert_eq!(PlugSign::ALL.len(), 5);
    /// ```
    PlugSign, 5 {
        /// Brown or grey and dry.
        Normal = 0,
        /// Black and dry.
        Sooty = 1,
        /// White or blistered.
        White = 2,
        /// Oily.
        Oily = 3,
        /// Wet with fuel or water.
        Wet = 4,
    }
}

sign! {
    /// The compression of all cylinders against what this engine should show.
    ///
    /// ```
    /// use lashwork::causes::PressureSign;
    /// assert_eq!(PressureSign::ALL.len(), 3);
    /// ```
    PressureSign, 3 {
        /// As it should be.
        Right = 0,
        /// All low.
        AllLow = 1,
        /// All high.
        AllHigh = 2,
    }
}

sign! {
    /// Carbon monoxide in the exhaust at idle, against the book.
    ///
    /// ```
    /// use lashwork::causes::MonoxideSign;
    /// assert_eq!(MonoxideSign::ALL.len(), 3);
    /// ```
    MonoxideSign, 3 {
        /// As the book says.
        Right = 0,
        /// Too much.
        High = 1,
        /// Too little.
        Low = 2,
    }
}

sign! {
    /// Unburnt fuel in the exhaust at idle, against the book.
    ///
    /// ```
    /// use lashwork::causes::UnburntSign;
    /// assert_eq!(UnburntSign::ALL.len(), 2);
    /// ```
    UnburntSign, 2 {
        /// As the book says.
        Right = 0,
        /// Too much.
        High = 1,
    }
}

sign! {
    /// Oxygen in the exhaust at idle, against what the carbon monoxide lets expect.
    ///
    /// ```
    /// use lashwork::causes::OxygenSign;
    /// assert_eq!(OxygenSign::ALL.len(), 2);
    /// ```
    OxygenSign, 2 {
        /// As expected.
        Right = 0,
        /// Too much.
        High = 1,
    }
}

sign! {
    /// Lambda of the exhaust at idle.
    ///
    /// ```
    /// use lashwork::causes::LambdaSign;
    /// assert_eq!(LambdaSign::ALL.len(), 3);
    /// ```
    LambdaSign, 3 {
        /// Within its limits.
        Right = 0,
        /// Below them.
        Rich = 1,
        /// Above them.
        Lean = 2,
    }
}

sign! {
    /// Ignition timing.
    ///
    /// ```
    /// use lashwork::causes::TimingSign;
    /// assert_eq!(TimingSign::ALL.len(), 3);
    /// ```
    TimingSign, 3 {
        /// Within its limits.
        Right = 0,
        /// Too late.
        Late = 1,
        /// Too early.
        Early = 2,
    }
}

sign! {
    /// Dwell of the contacts.
    ///
    /// ```
    /// use lashwork::causes::DwellSign;
    /// assert_eq!(DwellSign::ALL.len(), 3);
    /// ```
    DwellSign, 3 {
        /// Within its limits.
        Right = 0,
        /// Too large: the gap has closed.
        Large = 1,
        /// Too small: the gap is too wide.
        Small = 2,
    }
}
