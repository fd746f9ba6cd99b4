"""The reference list: a short key for each published source the kit leans on."""

SOURCES = {
    "40CFR1065": "U.S. Environmental Protection Agency. 40 CFR Part 1065, Engine-Testing Procedures.",
    "Arasu": "Arasu, A. V. Turbo Machines, ch. 1. Vikas Publishing.",
    "ASHRAE2017": "ASHRAE (2017). Handbook: Fundamentals, ch. 1 Psychrometrics. Atlanta.",
    "ASMEB40.100": "ASME B40.100-2013. Pressure Gauges and Gauge Attachments. New York.",
    "ASTME230": "ASTM E230/E230M. Temperature-Electromotive Force Tables for Standardized Thermocouples.",
    "ChEDL": "Bell, C. et al. Chemical Engineering Design Library (ChEDL): ht, heat transfer, and its test suite.",
    "Balmer": "Balmer, R. T. Modern Engineering Thermodynamics, ch. 16 Compressible Fluid Flow. Academic Press.",
    "CIPM2007": "Picard, A., Davis, R. S., Glaser, M. and Fujii, K. (2008). Revised formula for the "
    "density of moist air (CIPM-2007). Metrologia 45, 149-155.",
    "Cengel": "Cengel, Y. A. and Boles, M. A. (2002). Thermodynamics: An Engineering Approach, 4th ed. McGraw-Hill.",
    "CODATA2018": "Tiesinga, E. et al. (2021). CODATA recommended values of the fundamental physical "
    "constants: 2018. Rev. Mod. Phys. 93, 025010.",
    "CommonPractice": "Common practice of the trade; no single published source.",
    "GUM": "JCGM 100:2008. Evaluation of measurement data: Guide to the expression of uncertainty in measurement.",
    "GUMS1": "JCGM 101:2008. Propagation of distributions using a Monte Carlo method.",
    "Gupta": "Gupta, H. N. Fundamentals of Internal Combustion Engines, ch. 15 Supercharging. PHI Learning.",
    "Gorla": "Gorla, R. S. R. and Khan, A. A. (2003). Turbomachinery: Design and Theory. Marcel Dekker.",
    "GATE": "Graduate Aptitude Test in Engineering, aerospace papers, with a published worked answer.",
    "Greenspan1976": "Greenspan, L. (1976). Functional equations for the enhancement factors for CO2-free moist air. "
    "J. Res. Natl. Bur. Stand. 80A, 41-44.",
    "Hardy1998": "Hardy, B. (1998). ITS-90 formulations for vapor pressure, frostpoint temperature, dewpoint "
    "temperature, and enhancement factors in the range -100 to +100 °C. Proc. 3rd Int. Symp. Humidity and Moisture, "
    "London, 214-222.",
    "HarveyHuang2007": "Harvey, A. H. and Huang, P. H. (2007). First-principles calculation of the air-water second "
    "virial coefficient. Int. J. Thermophys. 28, 556-565.",
    "Heywood": "Heywood, J. B. (1988). Internal Combustion Engine Fundamentals. McGraw-Hill.",
    "Herrmann2009": "Herrmann, S., Kretzschmar, H.-J. and Gatley, D. P. (2009). Thermodynamic properties of real "
    "moist air (ASHRAE RP-1485). HVAC&R Research 15, 961-986.",
    "HylandWexler1983": "Hyland, R. W. and Wexler, A. (1983). Formulations for the thermodynamic properties of dry air "
    "from 173.15 K to 473.15 K, and of saturated moist air from 173.15 K to 372.15 K. ASHRAE Trans. 89(2A), 520-535.",
    "IAPWS-95": "IAPWS R6-95(2018). Formulation 1995 for the Thermodynamic Properties of Ordinary Water Substance for "
    "General and Scientific Use.",
    "IAPWS-IF97": "IAPWS R7-97(2012). Industrial Formulation 1997 for the Thermodynamic Properties of Water and Steam.",
    "IAPWS-R14": "IAPWS R14-08(2011). Pressure along the Melting and Sublimation Curves of Ordinary Water Substance.",
    "ICAO7488": "ICAO (1993). Manual of the ICAO Standard Atmosphere, Doc 7488/3. Montreal.",
    "IEC60584": "IEC 60584-1:2013. Thermocouples, Part 1: EMF specifications and tolerances.",
    "Incropera": "Incropera, F. P. et al. Fundamentals of Heat and Mass Transfer, ch. 11 Heat Exchangers. Wiley.",
    "ISO1585": "ISO 1585:1992. Road vehicles - Engine test code - Net power.",
    "ISO2533": "ISO 2533:1975. Standard Atmosphere.",
    "ISO3046": "ISO 3046-1. Reciprocating internal combustion engines - Performance - Declarations of power.",
    "ISO5167-2": "ISO 5167-2:2003. Measurement of fluid flow by means of pressure differential devices inserted in "
    "circular cross-section conduits running full - Part 2: Orifice plates.",
    "KaysLondon": "Kays, W. M. and London, A. L. (1984). Compact Heat Exchangers, 3rd ed. McGraw-Hill.",
    "Lemmon2000": "Lemmon, E. W., Jacobsen, R. T., Penoncello, S. G. and Friend, D. G. (2000). Thermodynamic "
    "properties of air and mixtures of nitrogen, argon, and oxygen. J. Phys. Chem. Ref. Data 29, 331-385.",
    "MathurSharma": "Mathur, M. L. and Sharma, R. P. A Course in Internal Combustion Engines, ch. 27.",
    "Matthews": "Matthews, C. Aeronautical Engineer's Data Book, app. 4 Gas tables. Butterworth-Heinemann.",
    "McBride1993": "McBride, B. J., Gordon, S. and Reno, M. A. (1993). Coefficients for calculating thermodynamic and "
    "transport properties of individual species. NASA TM-4513.",
    "MIT2.611": "Massachusetts Institute of Technology (2006). 2.611 Ship Power and Propulsion, problem sets and keys.",
    "MoranShapiro": "Moran, M. J. and Shapiro, H. N. Fundamentals of Engineering Thermodynamics, 8th ed. Wiley.",
    "MurphyKoop2005": "Murphy, D. M. and Koop, T. (2005). Review of the vapour pressures of ice and supercooled "
    "water for atmospheric applications. Q. J. R. Meteorol. Soc. 131, 1539-1565.",
    "NISTSP811": "Thompson, A. and Taylor, B. N. (2008). Guide for the Use of the International System of "
    "Units (SI). NIST Special Publication 811.",
    "OpenStaxPhysics": "Ling, S. J. and others (2016). University Physics, volume 1, ch. 10. OpenStax.",
    "Rajput": "Rajput, R. K. A Textbook of Internal Combustion Engines, ch. 16 Supercharging. Laxmi.",
    "RajputThermodynamics": "Rajput, R. K. Engineering Thermodynamics, ch. 13 Gas Power Cycles. Laxmi.",
    "Saravanamuttoo": "Saravanamuttoo, H. I. H., Rogers, G. F. C. and Cohen, H. Gas Turbine Theory, ch. 2. Pearson.",
    "SAEJ1349": "SAE J1349. Engine Power Test Code - Spark Ignition and Compression Ignition - Net Power Rating.",
    "Som": "Som, S. K. Introduction to Heat Transfer, ch. 10 Heat Exchangers. PHI Learning.",
    "Stone": "Stone, R. Introduction to Internal Combustion Engines, ch. 9 Turbocharging. Macmillan.",
    "Stodola": "Stodola, A. (1924). Dampf- und Gasturbinen, 6th ed. Springer.",
    "Urieli": "Urieli, I. Engineering Thermodynamics: A Graphical Approach. Ohio University.",
    "USSA1976": "NOAA, NASA and USAF (1976). U.S. Standard Atmosphere, 1976. Washington, D.C.",
}
