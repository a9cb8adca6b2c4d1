System.Console.WriteLine("hi");
